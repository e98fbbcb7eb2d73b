import type { WatchedValue } from '#domain/alerts/episode.ts'
import { beginGroup, beginningEpochMs, type LevelGroup } from '#domain/alerts/level-group.ts'
import { rewindTo } from '#domain/alerts/rewind-group.ts'
import { settle } from '#domain/alerts/settle-group.ts'
import { reachesBackTo, takeValues } from '#domain/alerts/take-values.ts'
import { type Asked, touchedSeries } from './asked-group.ts'
import type { FoldRequest } from './fold-request.ts'
import { halving } from './halve-on-failure.ts'
import { byAge, hasSilence, portions } from './portion-groups.ts'
import { askValues, gatherValues } from './values-of-groups.ts'
import type { WatchedGroup } from './watch-plan.ts'

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

/** Asks for the new values of some groups at once; returns those that must be folded anew. */
async function foldOn(request: FoldRequest, together: readonly Asked[]): Promise<readonly WatchedGroup[]> {
  const { folded, plan } = request
  const series = together.flatMap((one) => one.series)
  const from = Math.min(...together.map(({ fromEpochMs }) => fromEpochMs))
  // Every value that there is of them was folded before or has arrived now.
  const arrived = request.arrived.channels.map(
    ({ channel, ...stamps }) => plan.needs.instantsOf(channel, stamps).untilEpochMs,
  )
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
