import { type SilentWatched, silentAmongWatched } from '#domain/alerts/silent-watched.ts'
import type { StandingSummary } from '../../state/standing-summary.ts'

/**
 * What silence on a board does not mean; `summary` null: nothing has been judged at this instant yet; `watched` null: what
 * evaluation says is not known.
 */
export function channelsCaution(
  summary: Pick<StandingSummary, 'late' | 'series'> | null,
  watched: SilentWatched | null,
): string {
  const caution = 'No alert does not mean no movement:'
  if (summary === null) return `${caution} which channels have current data is not known yet.`
  const { late, series } = summary
  if (series === 0) return `${caution} no channel is in use.`
  const all = `${caution} ${late} of ${series} channels ${late === 1 ? 'has' : 'have'} no current data`
  if (watched === null) return `${all}; how many of them a level watches is not known.`
  return watched.watched === 0
    ? `${all}; no level watches any.`
    : `${all}; at the cut-off ${silentAmongWatched(watched)}.`
}
