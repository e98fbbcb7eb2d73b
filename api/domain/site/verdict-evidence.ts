import type { Evidence } from '../review/evidence.ts'
import type { Oddity } from '../review/oddity.ts'
import { type EvidenceTable, startOfCause } from '../review/rank-causes.ts'
import { rulesVersion } from '../review/rules-version.ts'
import type { VerdictEvidence } from './tables.ts'

/** Evidence as it is sent with a verdict: numbers and sentences, with the name of the rules that found it. */
export interface WeighedEvidence {
  readonly oddity: Oddity
  readonly fromEpochMs: number
  /** At which it was known. */
  readonly untilEpochMs: number
  readonly rulesVersion: string
  readonly lines: readonly WeighedLine[]
}

export type WeighedLine = Pick<Evidence, 'cause' | 'rule' | 'stands' | 'decibans' | 'sentence' | 'figure'>

/** The rule that gives the ground what it begins with. */
export const startRule = 'start'

/** A table as it is kept: its lines in order of rank, and what the ground began with, so that a cause's lines add up. */
export function weighedEvidence(
  table: EvidenceTable,
  { fromEpochMs, untilEpochMs }: Pick<WeighedEvidence, 'fromEpochMs' | 'untilEpochMs'>,
): WeighedEvidence {
  const lines = table.ranked.flatMap(({ cause, evidence }): WeighedLine[] => {
    const start = startOfCause(cause, table.oddity)
    return [
      ...(start === 0
        ? []
        : [
            {
              cause,
              rule: startRule,
              stands: 'for' as const,
              decibans: start,
              sentence: 'What is read is taken as real until it is shown otherwise.',
              figure: null,
            },
          ]),
      ...evidence.map(({ rule, stands, decibans, sentence, figure }) => ({
        cause,
        rule,
        stands,
        decibans,
        sentence,
        figure,
      })),
    ]
  })
  return { oddity: table.oddity, fromEpochMs, untilEpochMs, rulesVersion, lines }
}

/** The rows that keep the evidence of a verdict. */
export const evidenceRows = (
  verdict: string,
  { lines }: Pick<WeighedEvidence, 'lines'>,
): readonly VerdictEvidence[] =>
  lines.map(({ cause, rule, stands, decibans, sentence, figure }, place) => ({
    verdict,
    line: place + 1,
    cause,
    rule,
    stands,
    decibans,
    sentence,
    figure: figure?.value ?? null,
    figureLow: figure?.low ?? null,
    figureHigh: figure?.high ?? null,
    figureUnit: figure?.unit ?? null,
  }))
