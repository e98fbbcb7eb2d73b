import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitLine } from '../../statistics/least-squares.ts'
import { estimated, given, type LeftOut } from '../analysis.ts'
import {
  type FinalSettlement,
  type FittingWindow,
  type KnownSettlement,
  readingsOfWindow,
  type SettlementReading,
} from './final-settlement.ts'
import { hyperbolaOfConsolidation } from './hyperbola-of-consolidation.ts'

export interface HyperbolicForecast extends FinalSettlement {
  /** End of primary consolidation if all readings lie between 60 and 90 % of it. */
  readonly primarySettlementMm: number
}

const bias =
  'The hyperbola comes out high, by 8 to 20 % on series of primary consolidation whose end is known, and by more the earlier its readings end; its standard error does not hold that.'

/**
 * Final settlement by the hyperbolic method: t/s = a + b t and s_∞ = 1/b (Tan 1971), time from the end of loading.
 * Its bias is large: on series that end at 500 mm it gives 540 to 600, so it stands beside the method of equal
 * intervals and never alone. Refused with fewer than three readings and where b is not above 0. Readings from before
 * the end of loading or that did not settle have no place on the line and are left out.
 */
export function forecastByHyperbola(
  readings: readonly SettlementReading[],
  window: FittingWindow = { fromDays: Number.NEGATIVE_INFINITY, untilDays: null },
): Outcome<HyperbolicForecast> {
  const inWindow = readingsOfWindow(readings, window)
  const judged = inWindow.used.map((item) => ({ item, reason: reasonOffLine(item) }))
  const used = judged.flatMap(({ item, reason }) => (reason === null ? [item] : []))
  const offLine = judged.flatMap(({ item, reason }): LeftOut<SettlementReading>[] =>
    reason === null ? [] : [{ item, reason }],
  )
  const last = used.at(-1)
  if (!last || used.length < 3)
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
  const finalSettlementMm = 1 / slope
  const standardErrorMm = slopeStandardError / slope ** 2
  const primarySettlementMm = hyperbolaOfConsolidation(0.6, 0.9).slope * finalSettlementMm
  return accept({
    used,
    leftOut: [...inWindow.leftOut, ...offLine],
    method: `Hyperbola t/s = a + b t (Tan 1971) through ${used.length} readings after the end of loading.`,
    parameters: [
      given('window from', (used[0] as KnownSettlement).atDays, 'd'),
      given('window to', last.atDays, 'd'),
    ],
    found: [
      estimated('final settlement', finalSettlementMm, 'mm', standardErrorMm),
      given('end of primary consolidation, readings between 60 and 90 % of it', primarySettlementMm, 'mm'),
      given('settled of the final by the last reading', (100 * last.settlementMm) / finalSettlementMm, '%'),
    ],
    remarks: [
      bias,
      'Only where all readings lie between 60 and 90 % of primary consolidation does the slope of its series (Tan 1991, 1993) turn 1/b into its end.',
      ...(offLine.length > 0
        ? [`${offLine.length} readings have no place on the line and are left out.`]
        : []),
    ],
    finalSettlementMm,
    standardErrorMm,
    primarySettlementMm,
    fit: fit.value,
    bias,
  })
}

function reasonOffLine({ atDays, settlementMm }: KnownSettlement): string | null {
  if (!(atDays > 0)) return 'It is from before the end of loading, or of that instant.'
  return settlementMm > 0 ? null : 'It shows no settlement, so time over settlement is not a number to fit.'
}
