import type { Episode, WatchedValue } from '../alerts/episode.ts'
import { beginLevels, seriesNeeded, type ValuesBySeries } from '../alerts/fold-levels.ts'
import { membersOf, watchedBy } from '../levels/watched-by.ts'
import type { Stage, TriggerLevel } from '../site/tables.ts'
import type { ReducedSeries } from './reduced-series.ts'

/** What becomes of a level in the sandbox. */
export type LevelFate = 'now-reached' | 'no-more' | 'otherwise' | 'as-before' | 'never'

export interface LevelCompared {
  readonly level: TriggerLevel
  /** Episodes that were held, oldest first; a crossing that did not stand long enough raises nothing. */
  readonly official: readonly Episode[]
  readonly sandbox: readonly Episode[]
  readonly fate: LevelFate
}

export interface LevelsCompared {
  readonly levels: readonly LevelCompared[]
  /** Levels that cannot be judged from what is here, with the reason. */
  readonly notJudged: readonly { readonly level: TriggerLevel; readonly reason: string }[]
}

type Values = ReadonlyMap<string, ReducedSeries>

/**
 * Which levels are reached by the official values and which by the sandbox's, over the same stretch, by the folding that
 * alerts are raised with: persistence, hysteresis, stages and what a level watches. Every level of the series given.
 */
export function compareLevels(given: {
  readonly levels: readonly TriggerLevel[]
  readonly stages: readonly Pick<Stage, 'id' | 'startsAt' | 'endsAt'>[]
  readonly series: ReadonlySet<string>
  readonly official: Values
  readonly sandbox: Values
  readonly fromEpochMs: number
  readonly asOfEpochMs: number
}): LevelsCompared {
  const { levels, stages, series, official, sandbox, asOfEpochMs } = given
  const byId = new Map(levels.map((level) => [level.id, level]))
  const touches = (level: TriggerLevel): boolean =>
    series.has(level.series) ||
    series.has(level.against ?? '') ||
    (watchedBy(level) === 'combination' &&
      membersOf(level).some((id) => series.has(byId.get(id)?.series ?? '')))
  const notJudged: { level: TriggerLevel; reason: string }[] = []
  const judged = levels.filter(touches).filter((level) => {
    const reason = whyNotJudged(level, byId, official, given.fromEpochMs)
    if (reason !== null) notJudged.push({ level, reason })
    return reason === null
  })
  const wanted = new Set(
    judged.flatMap((level) => [level, ...membersOf(level).flatMap((id) => byId.get(id) ?? [])]),
  )
  // Before the first reading that is here nothing is known, least of all silence.
  const withinTime = [...wanted].map((level) => ({
    ...level,
    validFrom: Math.max(level.validFrom, given.fromEpochMs),
  }))
  const [before, after] = [official, sandbox].map((values) => {
    const folding = beginLevels(withinTime, stages)
    folding.take(watchedOf(values, seriesNeeded([...wanted])))
    return folding.episodes(asOfEpochMs)
  }) as [ReadonlyMap<string, readonly Episode[]>, ReadonlyMap<string, readonly Episode[]>]
  return {
    notJudged,
    levels: judged.map((level) => {
      const [own, others] = [heldOf(before.get(level.id)), heldOf(after.get(level.id))]
      return { level, official: own, sandbox: others, fate: fateOf(own, others) }
    }),
  }
}

const heldOf = (episodes: readonly Episode[] = []): readonly Episode[] =>
  episodes.filter(({ heldAtEpochMs }) => heldAtEpochMs !== null)

function fateOf(official: readonly Episode[], sandbox: readonly Episode[]): LevelFate {
  if (official.length === 0) return sandbox.length === 0 ? 'never' : 'now-reached'
  if (sandbox.length === 0) return 'no-more'
  const ends = (episodes: readonly Episode[]) =>
    JSON.stringify(episodes.map(({ heldAtEpochMs, leftAtEpochMs }) => [heldAtEpochMs, leftAtEpochMs]))
  return ends(official) === ends(sandbox) ? 'as-before' : 'otherwise'
}

function whyNotJudged(
  level: TriggerLevel,
  byId: ReadonlyMap<string, TriggerLevel>,
  values: Values,
  fromEpochMs: number,
): string | null {
  const parts =
    watchedBy(level) === 'combination' ? membersOf(level).flatMap((id) => byId.get(id) ?? []) : [level]
  const missing = [...seriesNeeded(parts)].filter((id) => !values.has(id))
  if (missing.length > 0) return `it needs readings of ${missing.join(', ')}, which are not here`
  if (parts.some((one) => watchedBy(one) === 'change' && (one.changeSince ?? fromEpochMs) < fromEpochMs))
    return 'it counts a change from before the time that is looked at'
  return null
}

/** Values as levels are folded over them; of two at one instant the first counts. */
function watchedOf(values: Values, wanted: ReadonlySet<string>): ValuesBySeries {
  return new Map(
    [...wanted].flatMap((id) => {
      const series = values.get(id)
      return series ? [[id, watchedValuesOf(series)] as const] : []
    }),
  )
}

export function watchedValuesOf({
  atEpochMs,
  value,
  receivedAfterSeconds,
}: ReducedSeries): readonly WatchedValue[] {
  const made: WatchedValue[] = []
  for (let at = 0; at < atEpochMs.length; at++) {
    const instant = atEpochMs[at] as number
    if (at > 0 && atEpochMs[at - 1] === instant) continue
    const one = value[at] as number
    made.push({
      atEpochMs: instant,
      receivedAtEpochMs: instant + (receivedAfterSeconds[at] as number) * 1000,
      value: Number.isNaN(one) ? null : one,
    })
  }
  return made
}
