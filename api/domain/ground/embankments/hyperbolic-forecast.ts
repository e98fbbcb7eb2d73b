import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitLine } from '../../statistics/least-squares.ts'
import type { FinalSettlement, SettlementReading } from './equal-interval-forecast.ts'

/**
 * Final settlement by the hyperbolic method: t/s = a + b t and s_∞ = 1/b (Tan 1971), time from the end of loading.
 * Its bias is large: on series that end at 500 mm it gives 540 to 600, so it stands beside the method of equal
 * intervals and never alone. Refused with fewer than three readings and where b is not above 0.
 */
export function forecastByHyperbola(readings: readonly SettlementReading[]): Outcome<FinalSettlement> {
  const used = readings.filter(({ atDays, settlementMm }) => atDays > 0 && settlementMm > 0)
  if (used.length < 3)
    return reject({
      code: 'readings-too-few',
      value: String(used.length),
      expected: 'three readings or more after the start that settled',
      message: `The hyperbolic method needs three readings after the end of loading; there are ${used.length}.`,
    })
  const fit = fitLine(
    used.map(({ atDays }) => atDays),
    used.map(({ atDays, settlementMm }) => atDays / settlementMm),
  )
  if (!fit.ok) return fit
  const { slope, slopeStandardError } = fit.value
  if (!(slope > 0))
    return reject({
      code: 'settlement-not-slowing',
      value: String(slope),
      message:
        'The settlement is not slowing as a hyperbola does, so no final settlement follows. Wait, or look at the load.',
    })
  return accept({
    method: `Hyperbola t/s = a + b t through ${used.length} readings after the end of loading.`,
    finalSettlementMm: 1 / slope,
    standardErrorMm: slopeStandardError / slope ** 2,
    fit: fit.value,
    bias: 'The hyperbola comes out high, by 8 to 20 % on series of primary consolidation whose end is known; its standard error does not hold that.',
    readingsUsed: used.length,
    interpolated: 0,
  })
}
