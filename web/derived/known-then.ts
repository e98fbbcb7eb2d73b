import type { Series } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { groupBy } from '#domain/group-by.ts'
import { isKnownBy, receiptKeptToMs } from '#domain/receipt/known-by.ts'
import { quality } from '#domain/reduction/quality.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { Columns } from '../engine/columns.ts'
import type { Query } from '../engine/query.ts'
import { oftenRead } from '../queries/often-read.ts'
import { lastReceivedAt, seriesNotArrived } from '../queries/receipts-at.ts'
import { seriesStatesAt } from '../queries/series-states-at.ts'
import { judgeLast, lastReadings } from './states-at.ts'

/** The newest value of a series taken by an instant, where it was received after it. */
export interface LaterArrival {
  readonly measuredAtEpochMs: number
  readonly receivedAtEpochMs: number
  /** The last value that had been received; null: none since the look-back. */
  readonly knownAtEpochMs: number | null
}

/** How every series stood at an instant by what had been received then. */
export interface KnownThen {
  readonly atEpochMs: number
  readonly states: ReadonlyMap<number, SeriesState>
  /** Series whose newest value taken by then came later. */
  readonly later: ReadonlyMap<number, LaterArrival>
}

const dayMs = 86_400_000

/**
 * How far back a value is looked for that had been received: four times as long as a series may be silent, at least
 * 31 days before the day of the last value taken by then.
 */
export const lookBackMs = (series: Pick<Series, 'lateAfterMinutes'>): number =>
  Math.max(31 * dayMs, 4 * series.lateAfterMinutes * 60_000)

/**
 * What was known at an instant. Most series need no more than buckets: where every reading of a series had come, its
 * last value a quarter of an hour before was known. Where one had not come, or came late before the look-back, the readings
 * themselves are asked.
 */
export async function knownThen(
  asked: {
    readonly atEpochMs: number
    readonly series: readonly Series[]
    readonly levels: readonly TriggerLevel[]
  },
  ask: (query: Query) => Promise<Columns>,
): Promise<KnownThen> {
  const { atEpochMs, series, levels } = asked
  const sinceEpochMs = atEpochMs - Math.max(0, ...series.map(lookBackMs))
  const notArrived = new Set((await ask(seriesNotArrived({ atEpochMs, sinceEpochMs }))).number('series'))
  const last = lastReadings(
    await ask(seriesStatesAt({ atEpochMs: atEpochMs - receiptKeptToMs, refineSeries: oftenRead(series) })),
  )
  const later = new Map<number, LaterArrival>()
  const lookBacks = groupBy(
    series.flatMap((one) => {
      const found = last.get(one.series)
      const isOld = found !== undefined && found.atEpochMs < sinceEpochMs
      const mayBeLater = isOld && (found.quality & quality.receivedLate) !== 0
      if (!mayBeLater && !notArrived.has(one.series)) return []
      const newestDay = Math.floor((found?.atEpochMs ?? atEpochMs) / dayMs) * dayMs
      return { series: one.series, sinceEpochMs: newestDay - lookBackMs(one) }
    }),
    (one) => one.sinceEpochMs,
  )
  if (lookBacks.size > 0) {
    const groups = [...lookBacks].map(([since, members]) => ({
      series: members.map((one) => one.series),
      sinceEpochMs: since,
    }))
    const received = await ask(lastReceivedAt(atEpochMs, groups))
    const known = lastReadings(received)
    const [numbers, newestAt, newestReceived] = ['series', 'newest_at_ms', 'newest_received_ms'].map((name) =>
      received.number(name),
    ) as [Float64Array, Float64Array, Float64Array]
    for (const { series: members } of groups) for (const number of members) last.delete(number)
    for (const [number, reading] of known) last.set(number, reading)
    for (let row = 0; row < received.rows; row++) {
      const arrival = {
        measuredAtEpochMs: newestAt[row] as number,
        receivedAtEpochMs: newestReceived[row] as number,
        knownAtEpochMs: known.get(numbers[row] as number)?.atEpochMs ?? null,
      }
      if (!isKnownBy(arrival.receivedAtEpochMs, atEpochMs)) later.set(numbers[row] as number, arrival)
    }
  }
  const states = judgeLast(last, series, levels, atEpochMs)
  return { atEpochMs, states: new Map(states.map((state) => [state.series, state])), later }
}
