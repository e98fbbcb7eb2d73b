import { type Analysis, given, reasonWithoutValue, sortOut } from '../analysis.ts'
import type { SettlementFromPressures } from './settlement-from-pressures.ts'

/** Settlement of a level or an extensometer over the same layers and the same time; downwards positive. */
export interface MeasuredSettlement {
  readonly id: string
  /** Null: no value known. */
  readonly settlementMm: number | null
  /** Null: not known. */
  readonly standardUncertaintyMm: number | null
  readonly late: boolean
}

export type KnownMeasured = MeasuredSettlement & { readonly settlementMm: number }

export interface ComputedAndMeasured extends Analysis<MeasuredSettlement, KnownMeasured> {
  readonly computedMm: number
  /** In the order of `used`. */
  readonly compared: readonly {
    /** Measured less computed. */
    readonly differenceMm: number
    /** Measured over computed; null where nothing was computed to have settled. */
    readonly ratio: number | null
    /** Whole sentence. */
    readonly sentence: string
  }[]
}

/** What levels and extensometers measured beside what the pressures of a string compute. */
export function compareSettlement(
  { settlementMm: computedMm }: Pick<SettlementFromPressures, 'settlementMm'>,
  measured: readonly MeasuredSettlement[],
): ComputedAndMeasured {
  const sorted = sortOut<MeasuredSettlement, KnownMeasured>(measured, ({ settlementMm, late }) =>
    reasonWithoutValue(settlementMm, late),
  )
  return {
    ...sorted,
    method:
      'Measured settlement less that computed from pore pressures, of the same layers since the same instant.',
    parameters: [],
    found: [given('computed settlement', computedMm, 'mm')],
    remarks: ['The uncertainty told is of the measurement; that of m_v is not known and is mostly larger.'],
    computedMm,
    compared: sorted.used.map((one) => ({
      differenceMm: one.settlementMm - computedMm,
      ratio: computedMm === 0 ? null : one.settlementMm / computedMm,
      sentence: sentenceOf(one, computedMm),
    })),
  }
}

function sentenceOf({ id, settlementMm, standardUncertaintyMm }: KnownMeasured, computedMm: number): string {
  const difference = settlementMm - computedMm
  const found = `${id} measured ${settlementMm.toFixed(1)} mm, computed ${computedMm.toFixed(1)} mm`
  const apart = `${Math.abs(difference).toFixed(1)} mm ${difference > 0 ? 'more' : 'less'} than computed`
  if (standardUncertaintyMm === null)
    return `${found}: ${apart}; the uncertainty of the measurement is not known.`
  return Math.abs(difference) > 2 * standardUncertaintyMm
    ? `${found}: ${apart}; compressibility, drainage or vertical movement is not as assumed.`
    : `${found}: they differ by less than twice the measurement's standard uncertainty.`
}
