import type { ReportDocument } from './document.ts'

interface FactLine {
  readonly name: string
  readonly value: string
}

/** What the title page says, in its order. */
export function factLines({ facts }: ReportDocument): readonly FactLine[] {
  return [
    { name: 'Period', value: facts.period },
    { name: 'Data cut-off', value: facts.cutOff },
    { name: 'Provisional', value: facts.provisionalShare },
    { name: 'Statement by', value: facts.statementBy },
    ...facts.more,
    { name: 'Made with', value: `Stillground ${facts.software}` },
  ]
}
