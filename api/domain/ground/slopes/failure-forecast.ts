import { failureInstant } from '../../levels/failure-time.ts'
import { accept, type Outcome, reject } from '../../outcome.ts'

export interface MovementReading {
  readonly atEpochMs: number
  readonly movementMm: number
}

/** The instant one choice of readings gives. */
export interface FailureWindow {
  readonly fromEpochMs: number
  readonly rates: number
  readonly atEpochMs: number
  readonly rSquared: number
}

export interface FailureForecast {
  /** Whole sentence. */
  readonly method: string
  /** From the longest to the shortest. */
  readonly windows: readonly FailureWindow[]
  readonly earliestEpochMs: number
  readonly latestEpochMs: number
  /** Whole sentence: what the range does not hold. */
  readonly caution: string
}

/** Shares of the rates, the latest kept, that the line is fitted to. */
const windowShares = [1, 0.75, 0.5]
const fewestRates = 4
const leastRSquared = 0.8

/** Mean rates over `lag` readings, mm per day, each at the middle of its time. They overstate the rate near failure. */
export function ratesOverLag(
  readings: readonly MovementReading[],
  lag: number,
): readonly { readonly atEpochMs: number; readonly mmPerDay: number }[] {
  return readings.slice(lag).map((to, at) => {
    const from = readings[at] as MovementReading
    return {
      atEpochMs: (from.atEpochMs + to.atEpochMs) / 2,
      mmPerDay: ((to.movementMm - from.movementMm) * 86_400_000) / (to.atEpochMs - from.atEpochMs),
    }
  })
}

/**
 * Time of failure by the inverse velocity (Fukuzono 1985) over several windows: always a range, for one window more or
 * less moves it. Refused where any window does not accelerate, is fitted badly or ends before the last reading: such a
 * movement gives no time.
 */
export function forecastFailure(readings: readonly MovementReading[], lag: number): Outcome<FailureForecast> {
  const ordered = readings.toSorted((one, other) => one.atEpochMs - other.atEpochMs)
  const rates = ratesOverLag(ordered, lag)
  const last = ordered.at(-1)
  if (!rates.every(({ mmPerDay }) => Number.isFinite(mmPerDay)))
    return refuse(
      'rates-unknown',
      'Two readings have one instant, or a reading is not a number, so no rate follows. Leave out what is repeated or missing.',
    )
  const windows: FailureWindow[] = []
  for (const share of windowShares) {
    const kept = rates.slice(rates.length - Math.round(share * rates.length))
    const [first] = kept
    if (!last || !first || kept.length < fewestRates)
      return refuse(
        'rates-too-few',
        `The shortest window needs ${fewestRates} rates; there are ${kept.length}. Wait for more readings.`,
      )
    const found = failureInstant(
      kept.map(({ atEpochMs }) => atEpochMs),
      kept.map(({ mmPerDay }) => mmPerDay),
    )
    if (!found.ok) return found
    const { atEpochMs, rSquared } = found.value
    if (!(rSquared >= leastRSquared))
      return refuse(
        'rates-scatter',
        `The inverse of the rate does not fall along a line (share explained ${rSquared.toFixed(2)}, ${leastRSquared} needed), so no time can be stated.`,
      )
    if (atEpochMs <= last.atEpochMs)
      return refuse(
        'failure-in-the-past',
        'The line reaches 0 before the last reading, yet the ground still moves: the method does not hold here.',
      )
    windows.push({ fromEpochMs: first.atEpochMs, rates: kept.length, atEpochMs, rSquared })
  }
  const instants = windows.map(({ atEpochMs }) => atEpochMs)
  return accept({
    method: `Inverse velocity (Fukuzono 1985) over ${windows.length} windows of the rates over ${lag} readings each.`,
    windows,
    earliestEpochMs: Math.min(...instants),
    latestEpochMs: Math.max(...instants),
    caution:
      'The range holds the choice of readings only. Where the inverse of the rate bends down towards its end, the ground fails before the range.',
  })
}

/** Velocity at a time before failure, v = (A (α − 1) (t_f − t))^(−1/(α − 1)), α above 1 (Voight 1988). */
export const velocityBeforeFailure = (a: number, alpha: number, timeToFailure: number): number =>
  (a * (alpha - 1) * timeToFailure) ** (-1 / (alpha - 1))

const refuse = (code: string, message: string) => reject({ code, message })
