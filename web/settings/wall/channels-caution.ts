import type { StandingSummary } from '../../state/standing-summary.ts'

/** What silence on a board does not mean; `summary` null: nothing has been judged at this instant yet. */
export function channelsCaution(summary: Pick<StandingSummary, 'late' | 'series'> | null): string {
  const caution = 'No alert does not mean no movement:'
  if (summary === null) return `${caution} which channels have current data is not known yet.`
  const { late, series } = summary
  if (series === 0) return `${caution} no channel is in use.`
  return `${caution} ${late} of ${series} channels ${late === 1 ? 'has' : 'have'} no current data.`
}
