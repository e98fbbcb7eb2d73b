import type { CheckedReading } from './checked-reading.ts'

/** A reading of a series as it was reduced; null: without a value. In order of time. */
export interface SeriesReading {
  readonly atEpochMs: number
  readonly value: number | null
  readonly receivedAfterSeconds: number
}

/** What the checks look at of each reading that has a value. */
export function checkedReadings(
  readings: readonly SeriesReading[],
  {
    decimals,
    neighbourMinutes,
    dueSinceEpochMs,
    duplicateAt = () => null,
    temperatureAt = () => null,
  }: {
    readonly decimals: number
    /** How far apart two readings may be that count as neighbours. */
    readonly neighbourMinutes: number
    readonly dueSinceEpochMs: number
    readonly duplicateAt?: (atEpochMs: number) => number | null
    readonly temperatureAt?: (atEpochMs: number) => number | null
  },
): readonly CheckedReading[] {
  const known = readings.flatMap((reading) =>
    reading.value === null ? [] : [{ ...reading, value: reading.value }],
  )
  let unchangedSinceEpochMs = 0
  return known.map((reading, at) => {
    const { atEpochMs, value } = reading
    const near = (other: (typeof known)[number] | undefined) =>
      other && Math.abs(atEpochMs - other.atEpochMs) <= neighbourMinutes * 60_000 ? other : null
    const before = near(known[at - 1])
    if (before === null || digits(before.value, decimals) !== digits(value, decimals))
      unchangedSinceEpochMs = atEpochMs
    return {
      atEpochMs,
      value,
      receivedAfterSeconds: reading.receivedAfterSeconds,
      beforeEpochMs: known[at - 1]?.atEpochMs ?? null,
      before,
      after: near(known[at + 1]),
      unchangedSinceEpochMs,
      dueSinceEpochMs,
      duplicate: duplicateAt(atEpochMs),
      temperatureDegC: temperatureAt(atEpochMs),
    }
  })
}

/** Whole number of the last decimal shown, halves away from nought as in SQL. */
const digits = (value: number, decimals: number): number =>
  Math.sign(value) * Math.round(Math.abs(value * 10 ** decimals)) + 0
