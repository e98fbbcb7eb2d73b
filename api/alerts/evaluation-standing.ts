import type { AlertsDocument } from '#contract/alerts.ts'
import type { Episode, WatchedValue } from '#domain/alerts/episode.ts'
import { isLate } from '#domain/levels/lateness.ts'
import { inForceOf, type Stretch } from '#domain/levels/value-levels.ts'
import type { SiteProgress } from './site-evaluation.ts'
import type { WatchPlan } from './watch-plan.ts'

/** How the evaluation of a site stands, and what it found. */
export interface EvaluationStanding
  extends Pick<AlertsDocument, 'evaluation' | 'crossings' | 'unknown' | 'watchedSeries' | 'unreadSeries'> {
  /** Every episode of each level, by its id, with its peak as it is now. */
  readonly episodes: ReadonlyMap<string, readonly Episode[]>
}

const crossingsMs = 7 * 86_400_000

/** As of an instant, which is the site's present. `storeRevision` is that of the readings that are here. */
export function evaluationStanding(
  progress: SiteProgress,
  given: { readonly storeRevision: number; readonly failure: string | null; readonly asOfEpochMs: number },
): EvaluationStanding {
  const { plan, episodes, revision, evaluatedAtEpochMs, broken } = progress
  const { storeRevision, failure, asOfEpochMs } = given
  const inForce = plan === null ? [] : seriesInForce(plan, asOfEpochMs)
  const unread = new Set(plan === null ? [] : unreadNow(plan, progress, inForce, asOfEpochMs))
  const watched = inForce.filter((series) => !unread.has(series))
  const unfounded = (plan?.unfounded ?? []).map(({ id, series }) => `${id}: there is no series ${series}`)
  const failures = [...(failure === null ? [] : [failure]), ...broken, ...unfounded]
  return {
    evaluation: {
      revision,
      behind: evaluatedAtEpochMs === null || revision < storeRevision,
      evaluatedAtEpochMs,
      failure: failures.length === 0 ? null : failures.join(' '),
    },
    episodes,
    crossings: [...episodes.values()]
      .flat()
      .filter(
        ({ heldAtEpochMs, leftAtEpochMs }) =>
          heldAtEpochMs === null && (leftAtEpochMs === null || leftAtEpochMs > asOfEpochMs - crossingsMs),
      )
      .toSorted((one, other) => other.crossedAtEpochMs - one.crossedAtEpochMs),
    unknown: plan === null ? [] : unknownNow(plan, progress, new Set(watched), asOfEpochMs),
    watchedSeries: watched.length,
    unreadSeries: unread.size,
  }
}

/** Ids of the series that a level in force hangs on. */
function seriesInForce({ groups, model }: WatchPlan, atEpochMs: number): readonly number[] {
  const inForce = groups.flatMap(({ levels }) =>
    levels.flatMap(({ level, series, against }) => {
      const stretch = inForceOf(level, model.stages)
      if (stretch === null || !isWithin([stretch], atEpochMs)) return []
      return against === null ? [series] : [series, against]
    }),
  )
  return [...new Set(inForce)].toSorted((one, other) => one - other)
}

/**
 * Series that are expected to give values and whose last one is too old, or that never gave any; and those of which a
 * level in force counts a change from a reading that is not here.
 */
const unknownNow = (
  { recipe, groups, groupOf, expected }: WatchPlan,
  { folded }: SiteProgress,
  watched: ReadonlySet<number>,
  asOfEpochMs: number,
): EvaluationStanding['unknown'] => {
  const uncounted = withoutStart(groups, folded, asOfEpochMs)
  return recipe.series.flatMap(({ id, series, critical, lateAfterMinutes }) => {
    if (!watched.has(series) || !isWithin(expected.get(id) ?? [], asOfEpochMs)) return []
    const last = lastOf(series, groupOf, folded)
    return isLate(knownEpochMs(last), asOfEpochMs, lateAfterMinutes) || uncounted.has(series)
      ? [{ series, lastEpochMs: last?.atEpochMs ?? null, critical }]
      : []
  })
}

/** Series of which a level in force counts a change, and there is no reading to count it from: it can never be reached. */
const withoutStart = (
  groups: WatchPlan['groups'],
  folded: SiteProgress['folded'],
  atEpochMs: number,
): ReadonlySet<number> =>
  new Set(
    groups.flatMap(({ key, levels }) =>
      levels.flatMap(({ level, series, inForce }, at) =>
        level.changeSince != null &&
        isWithin(inForce, atEpochMs) &&
        folded.get(key)?.folds[at]?.start === null
          ? [series]
          : [],
      ),
    ),
  )

/** Of some series those that nothing reads now and that gave nothing of late: levels on them can raise nothing. */
const unreadNow = (
  { recipe, groupOf, expected }: WatchPlan,
  { folded }: SiteProgress,
  inForce: readonly number[],
  asOfEpochMs: number,
): readonly number[] => {
  const asked = new Set(inForce)
  return recipe.series.flatMap(({ id, series, lateAfterMinutes }) =>
    asked.has(series) &&
    !isWithin(expected.get(id) ?? [], asOfEpochMs) &&
    isLate(knownEpochMs(lastOf(series, groupOf, folded)), asOfEpochMs, lateAfterMinutes)
      ? [series]
      : [],
  )
}

function lastOf(
  series: number,
  groupOf: WatchPlan['groupOf'],
  folded: SiteProgress['folded'],
): WatchedValue | null {
  const state = folded.get(groupOf.get(series)?.key ?? '')
  return state?.lastKnown[state.series.indexOf(series)] ?? null
}

const knownEpochMs = (last: WatchedValue | null): number | null =>
  last && Math.min(last.atEpochMs, last.receivedAtEpochMs)

const isWithin = (stretches: readonly Stretch[], atEpochMs: number): boolean =>
  stretches.some(
    ({ fromEpochMs, untilEpochMs }) =>
      fromEpochMs <= atEpochMs && (untilEpochMs === null || atEpochMs < untilEpochMs),
  )
