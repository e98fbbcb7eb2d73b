import { accept, type Outcome, reject } from '../outcome.ts'
import { coulombsOf } from './charge-budget.ts'

/** One cell of a kind, as its maker states it. */
export interface Cell {
  readonly milliampHours: number
  /** Share that can be drawn before a transmission pulls the voltage below what the radio needs, 0 to 1. */
  readonly usableShare: number
  /** Share lost in a year on the shelf, 0 to below 1. */
  readonly selfDischargePerYear: number
  /** Beyond it nothing is claimed, whatever the arithmetic says. */
  readonly shelfLifeYears: number
}

export interface BatteryLife {
  readonly years: number
  /** True where the shelf life, not the charge, ends it. */
  readonly cappedByShelfLife: boolean
  /** By charge alone, before the cap. */
  readonly yearsByCharge: number
}

const secondsAYear = 365.25 * 86_400

/**
 * Years that `cells` in parallel last at a mean current, their capacity taken down to `capacityShare` by the cold:
 * dQ/dt = −I − λQ, so t = ln(1 + λQ₀ / I) / λ with λ = −ln(1 − loss in a year). Refused without a current or charge.
 */
export function batteryLife(
  cell: Cell,
  cells: number,
  meanMicroamps: number,
  capacityShare = 1,
): Outcome<BatteryLife> {
  const usable = cells * cell.milliampHours * cell.usableShare * capacityShare
  if (!(meanMicroamps > 0 && usable > 0 && cell.selfDischargePerYear >= 0 && cell.selfDischargePerYear < 1))
    return reject({
      code: 'budget-incomplete',
      message: `No life follows from ${usable} mAh at ${meanMicroamps} µA and ${cell.selfDischargePerYear} lost in a year: give a charge and a current above 0, and a loss from 0 to below 1.`,
      value: String(meanMicroamps),
    })
  const withoutLoss = coulombsOf(usable) / (meanMicroamps * 1e-6) / secondsAYear
  const lossPerYear = -Math.log1p(-cell.selfDischargePerYear)
  const yearsByCharge = lossPerYear === 0 ? withoutLoss : Math.log1p(lossPerYear * withoutLoss) / lossPerYear
  return accept({
    years: Math.min(yearsByCharge, cell.shelfLifeYears),
    cappedByShelfLife: yearsByCharge > cell.shelfLifeYears,
    yearsByCharge,
  })
}

/** The same for a current that may be wrong by a share either way: life from the greater to the smaller. */
export function batteryLifeBetween(
  cell: Cell,
  cells: number,
  meanMicroamps: number,
  capacityShare: number,
  uncertainShare: number,
): Outcome<{ readonly low: BatteryLife; readonly middle: BatteryLife; readonly high: BatteryLife }> {
  const at = (factor: number) => batteryLife(cell, cells, meanMicroamps * factor, capacityShare)
  const [low, middle, high] = [at(1 + uncertainShare), at(1), at(1 / (1 + uncertainShare))]
  if (!low.ok) return low
  if (!middle.ok) return middle
  if (!high.ok) return high
  return accept({ low: low.value, middle: middle.value, high: high.value })
}
