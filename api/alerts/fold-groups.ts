import type { WatchedValue } from '#domain/alerts/episode.ts'
import {
  beginGroup,
  beginningEpochMs,
  type LevelGroup,
  reachesBackTo,
  rewindTo,
  settle,
  takeValues,
} from '#domain/alerts/level-group.ts'
import { watchedBy } from '#domain/levels/watched-by.ts'
import { valuesOfSeries } from '../slices/values-of-series.ts'
import type { ArrivedReadings, Store } from '../store/store.ts'
import type { WatchedGroup, WatchPlan } from './watch-plan.ts'

export interface FoldRequest {
  readonly store: Store
  readonly site: string
  readonly plan: WatchPlan
  /** How far groups are folded, by key; changed as they are folded on. One that is not in it is folded anew. */
  readonly folded: Map<string, LevelGroup>
  readonly arrived: Pick<ArrivedReadings, 'channels'>
  /** Groups that are left alone this time. */
  readonly waiting: ReadonlySet<string>
  /** Told of a group that could not be folded; the others go on. */
  readonly onFailure: (group: WatchedGroup, cause: unknown) => void
}

/** Readings up to so much older than the newest are worked out in one go with it, then the next older. */
const togetherMs = [86_400_000, 30 * 86_400_000, Number.POSITIVE_INFINITY]

/** Series folded anew at once: what of theirs is in memory is a month; with a level on silence all there is. */
const anewAtOnce = { plain: 250, withSilence: 50 }

/** Folds what arrived onto the groups that hang on it, and returns those that were folded. */
export async function foldArrived(request: FoldRequest): Promise<readonly WatchedGroup[]> {
  const { plan, folded, waiting } = request
  const touched = touchedSeries(request)
  const asked = plan.groups.flatMap((group): readonly Asked[] => {
    if (waiting.has(group.key)) return []
    const series = group.series.filter((one) => touched.has(one))
    const fromEpochMs = Math.min(...series.map((one) => touched.get(one) as number))
    const state = folded.get(group.key)
    if (state === undefined) return [{ group, series, fromEpochMs, onto: null }]
    if (series.length === 0) return []
    if (reachesBackTo(state, fromEpochMs)) return [{ group, series, fromEpochMs, onto: state }]
    const back = rewindTo(group.levels, state, fromEpochMs)
    return [
      {
        group,
        series: group.series,
        fromEpochMs: back?.fromEpochMs ?? fromEpochMs,
        onto: back?.group ?? null,
      },
    ]
  })
  const anew = asked.filter(({ onto }) => onto === null).map(({ group }) => group)
  const { apart, tellFailed } = halving(request)
  for (const together of byAge(asked.filter(({ onto }) => onto !== null)))
    await apart(
      together,
      ({ group }) => group,
      async (some) => {
        anew.push(...(await foldOn(request, some)))
      },
    )
  for (const silent of [false, true]) {
    const alike = anew.filter((group) => hasSilence(group) === silent)
    for (const together of portions(alike, silent ? anewAtOnce.withSilence : anewAtOnce.plain))
      await apart(
        together,
        (group) => group,
        (some) => foldAnew(request, some),
      )
  }
  tellFailed()
  return asked.map(({ group }) => group)
}

/** So many questions may fail in one run before it is the store that fails, and not some series. */
const mostFailures = 60

/**
 * Does something for some at once; where that fails, for each half of them, down to the one that it fails for, which is
 * told and left out: a series whose values cannot be made must not take the others with it. Where it works for none, it is
 * the store that fails, and the run with it.
 */
function halving({ folded, onFailure }: FoldRequest) {
  let failures = 0
  let successes = 0
  const failed: { readonly group: WatchedGroup; readonly cause: unknown }[] = []
  async function apart<One>(
    some: readonly One[],
    groupOf: (one: One) => WatchedGroup,
    todo: (some: readonly One[]) => Promise<void>,
  ): Promise<void> {
    try {
      await todo(some)
      successes += 1
    } catch (cause) {
      failures += 1
      if (failures > mostFailures) throw cause
      const [only] = some
      if (only !== undefined && some.length === 1) {
        failed.push({ group: groupOf(only), cause })
        return
      }
      const middle = some.length >> 1
      await apart(some.slice(0, middle), groupOf, todo)
      await apart(some.slice(middle), groupOf, todo)
    }
  }
  const tellFailed = (): void => {
    const [first] = failed
    if (first && successes === 0) throw first.cause
    for (const { group, cause } of failed) {
      folded.delete(group.key)
      onFailure(group, cause)
    }
  }
  return { apart, tellFailed }
}

interface Asked {
  readonly group: WatchedGroup
  readonly series: readonly number[]
  /** From when on their values are asked for: nothing before it is new or another. */
  readonly fromEpochMs: number
  /** What they are folded onto; null: everything is folded anew. */
  readonly onto: LevelGroup | null
}

/** Watched series that hang on what arrived, each with the first instant at which it may have changed. */
function touchedSeries({ plan, arrived }: FoldRequest): ReadonlyMap<number, number> {
  const touched = new Map<number, number>()
  for (const { channel, fromEpochMs, untilEpochMs } of arrived.channels)
    for (const series of plan.needs.hangingOn(channel, fromEpochMs, untilEpochMs))
      if (plan.groupOf.has(series))
        touched.set(series, Math.min(fromEpochMs, touched.get(series) ?? fromEpochMs))
  return touched
}

/** Asks for the new values of some groups at once; returns those that must be folded anew. */
async function foldOn(request: FoldRequest, together: readonly Asked[]): Promise<readonly WatchedGroup[]> {
  const { folded } = request
  const series = together.flatMap((one) => one.series)
  const from = Math.min(...together.map(({ fromEpochMs }) => fromEpochMs))
  // Every value that there is of them was folded before or has arrived now.
  const arrived = request.arrived.channels.map(({ untilEpochMs }) => untilEpochMs)
  const known = together.map(({ group }) => (folded.get(group.key)?.foldedEpochMs ?? 0) + 1)
  const values = await gatherValues(request, series, from, Math.max(...arrived, ...known))
  return together.flatMap(({ group, series, fromEpochMs, onto }) => {
    const given = series.map(
      (one) => [one, (values.get(one) ?? []).filter(({ atEpochMs }) => atEpochMs >= fromEpochMs)] as const,
    )
    try {
      const next = takeValues(group.levels, onto as LevelGroup, new Map(given), fromEpochMs)
      if (next === null) return [group]
      folded.set(group.key, settle(group.levels, next))
    } catch (cause) {
      folded.delete(group.key)
      request.onFailure(group, cause)
    }
    return []
  })
}

/** Folds every value that there is, month by month; receipts need all of them in their own order. */
async function foldAnew(request: FoldRequest, groups: readonly WatchedGroup[]): Promise<void> {
  const { folded } = request
  const series = groups.flatMap((group) => group.series)
  const states = new Map(groups.map((group) => [group, beginGroup(group.levels)]))
  const take = (values: ReadonlyMap<number, readonly WatchedValue[]>, fromEpochMs: number) => {
    for (const [group, state] of states) {
      const given = group.series.flatMap((one) => {
        const own = values.get(one)
        return own === undefined ? [] : [[one, own] as const]
      })
      if (given.length === 0) continue
      try {
        const next = takeValues(group.levels, state, new Map(given), fromEpochMs)
        if (next === null) throw new Error('receipts of one series are out of order among themselves')
        states.set(group, settle(group.levels, next))
      } catch (cause) {
        states.delete(group)
        request.onFailure(group, cause)
      }
    }
  }
  for (const { key } of groups) folded.delete(key)
  if (groups.some(hasSilence))
    take(await gatherValues(request, series, beginningEpochMs, endless), beginningEpochMs)
  else await askValues(request, series, beginningEpochMs, endless, take)
  for (const [group, state] of states) folded.set(group.key, state)
}

const endless = Number.POSITIVE_INFINITY

async function gatherValues(
  request: FoldRequest,
  series: readonly number[],
  fromEpochMs: number,
  untilEpochMs: number,
) {
  const values = new Map<number, WatchedValue[]>()
  await askValues(request, series, fromEpochMs, untilEpochMs, (part) => {
    for (const [one, own] of part) {
      const known = values.get(one)
      if (known === undefined) values.set(one, [...own])
      else for (const value of own) known.push(value)
    }
  })
  return values
}

const askValues = (
  { store, site, plan }: FoldRequest,
  series: readonly number[],
  fromEpochMs: number,
  untilEpochMs: number,
  onValues: (values: ReadonlyMap<number, readonly WatchedValue[]>, fromEpochMs: number) => void,
): Promise<void> =>
  valuesOfSeries({
    store,
    site,
    needed: plan.needs.neededBy(series),
    series,
    fromEpochMs,
    untilEpochMs,
    onValues,
  })

const hasSilence = ({ levels }: WatchedGroup): boolean =>
  levels.some(({ level }) => watchedBy(level) === 'silence')

/** Without this, one reading from last month would have everything of today worked out from there on. */
function byAge(asked: readonly Asked[]): readonly (readonly Asked[])[] {
  const newest = Math.max(...asked.map(({ fromEpochMs }) => fromEpochMs))
  const classOf = ({ fromEpochMs }: Asked) => togetherMs.findIndex((age) => newest - fromEpochMs <= age)
  return togetherMs
    .map((_, at) => asked.filter((one) => classOf(one) === at))
    .filter((together) => together.length > 0)
}

/** Groups that have at most so many series together, one at least. */
function portions(groups: readonly WatchedGroup[], atOnce: number): readonly (readonly WatchedGroup[])[] {
  const made: WatchedGroup[][] = []
  let count = Number.POSITIVE_INFINITY
  for (const group of groups) {
    if (count + group.series.length > atOnce) {
      made.push([])
      count = 0
    }
    made.at(-1)?.push(group)
    count += group.series.length
  }
  return made
}
