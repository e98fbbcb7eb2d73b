import type { DuckDBConnection } from '@duckdb/node-api'
import type { Store } from '../store/store.ts'
import { addDerivedSeries } from './derive-window.ts'
import { type Month, monthsBetween } from './months.ts'
import { reduceWindow } from './reduce-window.ts'
import type { NeededRecipe } from './series-needs.ts'
import { touchedInstants } from './touched-instants.ts'

/** One value as published: rounded to the decimals of its series. */
export interface SeriesValue {
  readonly atEpochMs: number
  /** To the second; of a derived value the latest receipt of its members. */
  readonly receivedAtEpochMs: number
  /** Null: the reading has none. */
  readonly value: number | null
}

export interface ValuesRequest {
  readonly store: Store
  readonly site: string
  /** What the series need (`SeriesNeeds.neededBy`). */
  readonly needed: NeededRecipe
  readonly series: readonly number[]
  /** Inclusive. */
  readonly fromEpochMs: number
  /** Exclusive. */
  readonly untilEpochMs: number
  /**
   * Told the values by series, ordered by their instants, part by part in order of time: every month that has readings,
   * or the whole of a short stretch. Series without values in a part are left out of it.
   */
  readonly onValues: (values: ReadonlyMap<number, readonly SeriesValue[]>, fromEpochMs: number) => void
}

/** A stretch up to so long is asked for at once. */
const atOnceMs = 40 * 86_400_000

/**
 * The values of some series, by the same queries that publish slices but of what these series need alone. Long
 * stretches are made month by month, so that memory is bounded by a month of these series.
 */
export async function valuesOfSeries(request: ValuesRequest): Promise<void> {
  const { store, site, needed, series } = request
  if (series.length === 0 || request.untilEpochMs <= request.fromEpochMs) return
  const lookBackMs = needed.lookBackMinutes * 60_000
  const { fromEpochMs, untilEpochMs } = await withReadings(request)
  const connection = await store.connect()
  try {
    for (const part of partsOf(fromEpochMs, untilEpochMs)) {
      await store.exposeReadings(connection, 'asked_reading', {
        site,
        fromEpochMs: part.fromEpochMs - lookBackMs,
        untilEpochMs: part.untilEpochMs,
        clocks: needed.clocks,
      })
      await reduceWindow(
        connection,
        'asked_reading',
        needed.links,
        part.fromEpochMs,
        part.untilEpochMs,
        needed.heldSeries,
      )
      await addDerivedSeries(connection, needed)
      const values = await readValues(connection, series)
      if (values.size > 0) request.onValues(values, part.fromEpochMs)
    }
  } finally {
    connection.closeSync()
  }
}

/** A long stretch ends where readings do. */
async function withReadings({
  store,
  site,
  needed,
  fromEpochMs,
  untilEpochMs,
}: ValuesRequest): Promise<{ fromEpochMs: number; untilEpochMs: number }> {
  if (untilEpochMs - fromEpochMs <= atOnceMs) return { fromEpochMs, untilEpochMs }
  const range = await touchedInstants(store, site, 0, needed.clocks)
  return {
    fromEpochMs: Math.max(fromEpochMs, range?.fromEpochMs ?? untilEpochMs),
    untilEpochMs: Math.min(untilEpochMs, range?.untilEpochMs ?? untilEpochMs),
  }
}

function partsOf(
  fromEpochMs: number,
  untilEpochMs: number,
): readonly Pick<Month, 'fromEpochMs' | 'untilEpochMs'>[] {
  if (untilEpochMs <= fromEpochMs) return []
  if (untilEpochMs - fromEpochMs <= atOnceMs) return [{ fromEpochMs, untilEpochMs }]
  return monthsBetween(fromEpochMs, untilEpochMs - 1).map((month) => ({
    fromEpochMs: Math.max(fromEpochMs, month.fromEpochMs),
    untilEpochMs: Math.min(untilEpochMs, month.untilEpochMs),
  }))
}

async function readValues(
  connection: DuckDBConnection,
  series: readonly number[],
): Promise<ReadonlyMap<number, readonly SeriesValue[]>> {
  // Rounded by the arithmetic of slices, not by round(value, decimals): a value half-way comes out the same.
  const reader = await connection.runAndReadAll(`
    select series, epoch_ms("at")::double, received_after_s * 1000e0, round(value * pow(10, decimals)) / pow(10, decimals)
    from reduced where series in (select unnest([${series.join(', ')}]::integer[]))
    order by series, "at", received_after_s, value`)
  const [numbers, instants, delays, amounts] = reader.getColumns() as [number[], number[], number[], number[]]
  const values = new Map<number, SeriesValue[]>()
  let last = -1
  let own: SeriesValue[] = []
  for (let row = 0; row < (numbers?.length ?? 0); row++) {
    const number = numbers[row] as number
    if (number !== last) {
      own = []
      values.set(number, own)
      last = number
    }
    const atEpochMs = instants[row] as number
    // Two channels wired to one sensor may give an instant twice: one of them counts, always the same one.
    if (own.at(-1)?.atEpochMs === atEpochMs) continue
    const receivedAtEpochMs = atEpochMs + (delays[row] as number)
    const value = amounts[row] ?? null
    // A value rounded to nothing from below is 0, as slices have it.
    own.push({ atEpochMs, receivedAtEpochMs, value: value === null ? null : value + 0 })
  }
  return values
}
