import { failureInstant } from '../../levels/failure-time.ts'
import { accept, type Outcome, reject } from '../../outcome.ts'
import { type Analysis, given } from '../analysis.ts'
import { type MovementReading, movementsInOrder } from './movement-reading.ts'

/** The instant one choice of readings gives. */
export interface FailureWindow {
  readonly fromEpochMs: number
  readonly rates: number
  readonly atEpochMs: number
  readonly rSquared: number
  /** 1/v at `fromEpochMs` on its line, days per mm; the line falls from there to 0 at `atEpochMs`. */
  readonly inverseAtStart: number
}

export interface FailureForecast extends Analysis<MovementReading> {
  /** Mean rates over the lag. */
  readonly rates: readonly MeanRate[]
  /** From the longest to the shortest. */
  readonly windows: readonly FailureWindow[]
  readonly earliestEpochMs: number
  readonly latestEpochMs: number
}

export interface MeanRate {
  readonly atEpochMs: number
  readonly mmPerDay: number
}

/** Shares of the rates, the latest kept, that the line is fitted to. */
const windowShares = [1, 0.75, 0.5]
const fewestRates = 4
const leastRSquared = 0.8

/** Mean rates over `lag` readings, mm per day, each at the middle of its time. They overstate the rate near failure. */
export function ratesOverLag(readings: readonly MovementReading[], lag: number): readonly MeanRate[] {
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
  const sorted = movementsInOrder(readings)
  if (sorted.repeated)
    return refuse(
      'rates-unknown',
      'Two readings have one instant, so no rate follows. Leave out what is repeated.',
    )
  const rates = ratesOverLag(sorted.used, lag)
  const last = sorted.used.at(-1)
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
    windows.push({
      fromEpochMs: first.atEpochMs,
      rates: kept.length,
      atEpochMs,
      rSquared,
      inverseAtStart: found.value.inverseRate.intercept,
    })
  }
  const instants = windows.map(({ atEpochMs }) => atEpochMs)
  const spread = (Math.max(...instants) - Math.min(...instants)) / 86_400_000
  return accept({
    used: sorted.used,
    leftOut: sorted.leftOut,
    parameters: [
      given('readings a rate spans', lag, ''),
      given('least share explained', leastRSquared, ''),
      ...windows.map(({ rates: count }, at) => given(`rates in window ${at + 1}`, count, '')),
    ],
    found: [
      given('spread over the windows', spread, 'd'),
      ...windows.map(({ rSquared }, at) => given(`share explained in window ${at + 1}`, rSquared, '')),
    ],
    rates,
    method: `Inverse velocity (Fukuzono 1985) over ${windows.length} windows of the rates over ${lag} readings each.`,
    windows,
    earliestEpochMs: Math.min(...instants),
    latestEpochMs: Math.max(...instants),
    remarks: [
      'The range holds the choice of readings only. Where the inverse of the rate bends down towards its end, the ground fails before the range.',
      'A mean rate over a time overstates the rate at its middle while movement grows. It is a projection of what has been seen: rain, works and support are not in it.',
    ],
  })
}

/** Velocity at a time before failure, v = (A (α − 1) (t_f − t))^(−1/(α − 1)), α above 1 (Voight 1988). */
export const velocityBeforeFailure = (a: number, alpha: number, timeToFailure: number): number =>
  (a * (alpha - 1) * timeToFailure) ** (-1 / (alpha - 1))

const refuse = (code: string, message: string) => reject({ code, message })
