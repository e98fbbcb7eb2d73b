import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitLine, type LineFit } from '../../statistics/least-squares.ts'

/** Settlement, downwards positive, under a load that no longer changes. */
export interface SettlementReading {
  readonly atDays: number
  readonly settlementMm: number
}

export interface FinalSettlement {
  /** Whole sentence. */
  readonly method: string
  readonly finalSettlementMm: number
  /** To first order from the fitted line. */
  readonly standardErrorMm: number
  readonly fit: LineFit
  /** Whole sentence: in which direction the method errs. */
  readonly bias: string
  readonly readingsUsed: number
  /** Readings made by interpolation to equal intervals. */
  readonly interpolated: number
}

/**
 * Final settlement by the observational method of equal intervals (Asaoka 1978): s_i = β₀ + β₁ s_(i−1) and
 * s_∞ = β₀/(1 − β₁). Readings between are interpolated. Refused with fewer than three pairs, and where β₁ is not
 * between 0 and 1: the settlement is then not slowing.
 */
export function forecastByEqualIntervals(
  readings: readonly SettlementReading[],
  intervalDays: number,
): Outcome<FinalSettlement> {
  const ordered = readings.toSorted((one, other) => one.atDays - other.atDays)
  const [first, last] = [ordered[0], ordered.at(-1)]
  if (!first || !last || !(intervalDays > 0) || !ordered.every(isKnown)) return tooFew(ordered.length)
  const count = Math.floor((last.atDays - first.atDays) / intervalDays + 1e-9) + 1
  if (count < 4) return tooFew(count)
  let interpolated = 0
  const s = Array.from({ length: count }, (_, step) => {
    const at = first.atDays + step * intervalDays
    const exact = ordered.find(({ atDays }) => Math.abs(atDays - at) <= 1e-9 * intervalDays)
    if (exact) return exact.settlementMm
    interpolated++
    return between(ordered, at)
  })
  const fit = fitLine(s.slice(0, -1), s.slice(1))
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
  return accept({
    method: `Equal intervals of ${intervalDays} days (Asaoka 1978), ${count - 1} pairs; primary consolidation under constant load only.`,
    finalSettlementMm,
    standardErrorMm: Math.sqrt(Math.max(0, a * a + b * b + 2 * fit.value.correlation * a * b)) / (1 - slope),
    fit: fit.value,
    bias: 'Scatter of the readings makes the slope, and with it the final settlement, come out low; secondary compression is not in it.',
    readingsUsed: ordered.length,
    interpolated,
  })
}

/** c_v, m² a day, from the slope of equal intervals and the drainage path: −4H² ln β₁ / (π² Δt). */
export const consolidationCoefficient = (
  slope: number,
  drainagePathMetres: number,
  intervalDays: number,
): number => (-4 * drainagePathMetres ** 2 * Math.log(slope)) / (Math.PI ** 2 * intervalDays)

const isKnown = ({ atDays, settlementMm }: SettlementReading) =>
  Number.isFinite(atDays) && Number.isFinite(settlementMm)

function between(ordered: readonly SettlementReading[], at: number): number {
  const next = ordered.findIndex(({ atDays }) => atDays > at)
  const [from, to] = [ordered[next - 1] as SettlementReading, ordered[next] as SettlementReading]
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
