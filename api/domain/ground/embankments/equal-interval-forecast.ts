import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitLine } from '../../statistics/least-squares.ts'
import { estimated, given } from '../analysis.ts'
import {
  type FinalSettlement,
  type FittingWindow,
  type KnownSettlement,
  readingsOfWindow,
  type SettlementReading,
} from './final-settlement.ts'

export interface EqualIntervalForecast extends FinalSettlement {
  /** At equal intervals: the pairs of the line are its neighbours. */
  readonly stepsMm: readonly number[]
  readonly intervalDays: number
  /** Steps made by interpolation. */
  readonly interpolated: number
}

const bias =
  'Scatter of the readings makes the slope, and with it the final settlement, come out low, and the interval chosen moves it; a load that still changes and secondary compression are not in the method.'

/**
 * Final settlement by the observational method of equal intervals (Asaoka 1978): s_i = β₀ + β₁ s_(i−1) and
 * s_∞ = β₀/(1 − β₁). Readings between are interpolated. Refused with fewer than three pairs, and where β₁ is not
 * between 0 and 1: the settlement is then not slowing.
 */
export function forecastByEqualIntervals(
  readings: readonly SettlementReading[],
  intervalDays: number,
  window: FittingWindow = { fromDays: Number.NEGATIVE_INFINITY, untilDays: null },
): Outcome<EqualIntervalForecast> {
  const sorted = readingsOfWindow(readings, window)
  const ordered = sorted.used
  const [first, last] = [ordered[0], ordered.at(-1)]
  if (!first || !last || !(intervalDays > 0)) return tooFew(ordered.length)
  const count = Math.floor((last.atDays - first.atDays) / intervalDays + 1e-9) + 1
  if (count < 4) return tooFew(count)
  let interpolated = 0
  const stepsMm = Array.from({ length: count }, (_, step) => {
    const at = first.atDays + step * intervalDays
    const exact = ordered.find(({ atDays }) => Math.abs(atDays - at) <= 1e-9 * intervalDays)
    if (exact) return exact.settlementMm
    interpolated++
    return between(ordered, at)
  })
  const fit = fitLine(stepsMm.slice(0, -1), stepsMm.slice(1))
  if (!fit.ok) return fit
  const { intercept, slope } = fit.value
  if (!(slope > 0 && slope < 1))
    return reject({
      code: 'settlement-not-slowing',
      value: String(slope),
      expected: 'a slope above 0 and below 1',
      message: `Each interval settles ${slope.toFixed(3)} times the one before, so no final settlement follows. Start after the load was complete, or wait.`,
    })
  const finalSettlementMm = intercept / (1 - slope)
  // s∞ = β₀/(1−β₁): ∂/∂β₀ = 1/(1−β₁), ∂/∂β₁ = s∞/(1−β₁).
  const a = fit.value.interceptStandardError
  const b = finalSettlementMm * fit.value.slopeStandardError
  const standardErrorMm =
    Math.sqrt(Math.max(0, a * a + b * b + 2 * fit.value.correlation * a * b)) / (1 - slope)
  return accept({
    ...sorted,
    method: `Equal intervals of ${intervalDays} days (Asaoka 1978), ${count - 1} pairs; primary consolidation under constant load only.`,
    parameters: [
      given('interval', intervalDays, 'd'),
      given('window from', first.atDays, 'd'),
      given('window to', last.atDays, 'd'),
    ],
    found: [
      estimated('final settlement', finalSettlementMm, 'mm', standardErrorMm),
      estimated('slope β₁', slope, '', fit.value.slopeStandardError),
      given('settled of it by the last reading', (100 * last.settlementMm) / finalSettlementMm, '%'),
    ],
    remarks: [
      bias,
      'The standard error holds the scatter about the line only: neighbouring pairs share a reading, and neither the interval nor the start is in it.',
      ...(interpolated > 0
        ? [`${interpolated} of ${count} steps lie between readings, on straight lines.`]
        : []),
      ...(finalSettlementMm < last.settlementMm
        ? ['The last reading is above the final settlement found: the method does not hold here.']
        : []),
    ],
    finalSettlementMm,
    standardErrorMm,
    fit: fit.value,
    bias,
    stepsMm,
    intervalDays,
    interpolated,
  })
}

/** c_v, m² a day, from the slope of equal intervals and the drainage path: −4H² ln β₁ / (π² Δt). */
export const consolidationCoefficient = (
  slope: number,
  drainagePathMetres: number,
  intervalDays: number,
): number => (-4 * drainagePathMetres ** 2 * Math.log(slope)) / (Math.PI ** 2 * intervalDays)

function between(ordered: readonly KnownSettlement[], at: number): number {
  const next = ordered.findIndex(({ atDays }) => atDays > at)
  const [from, to] = [ordered[next - 1] as KnownSettlement, ordered[next] as KnownSettlement]
  const share = (at - from.atDays) / (to.atDays - from.atDays)
  return from.settlementMm + share * (to.settlementMm - from.settlementMm)
}

const tooFew = (count: number) =>
  reject({
    code: 'readings-too-few',
    value: String(count),
    expected: 'four readings or more at equal intervals',
    message: `The method of equal intervals needs four known readings at equal intervals; there are ${count}. Shorten the interval or wait.`,
  })
