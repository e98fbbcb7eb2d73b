import type { BatteryLife } from './battery-life.ts'
import type { DaysLeft } from './days-left.ts'

/** Life on paper held against what the cells of a like logger do. */
export interface CorrectedLife {
  /** Days from now that may be counted on; null where neither paper nor records bound them from below. */
  readonly daysFromNow: readonly [low: number, high: number] | null
  readonly from: 'records' | 'paper'
  /** Whole sentence. */
  readonly says: string
}

/**
 * The measured voltage corrects the budget wherever it says something: a budget does not know a bad cell, a cold winter, or
 * a radio that repeats. Where the records only say that no end is in sight, the budget stands, counted from new cells.
 */
export function correctLife(low: BatteryLife, high: BatteryLife, measured: DaysLeft | null): CorrectedLife {
  const paper: readonly [number, number] = [365.25 * low.years, 365.25 * high.years]
  switch (measured?.kind) {
    case 'below-limit':
      return {
        daysFromNow: [0, 0],
        from: 'records',
        says: `Its voltage of ${measured.volts.toFixed(2)} V is at or below its limit: whatever the budget says, the cells are to be changed now.`,
      }
    case 'days':
      return {
        daysFromNow: [Math.min(measured.low, paper[1]), Math.min(measured.high, paper[1])],
        from: 'records',
        says: `Its voltage meets the limit in ${measured.low.toFixed(0)} to ${Number.isFinite(measured.high) ? measured.high.toFixed(0) : 'unknown'} days (95 %): the records hold, the budget was ${low.years.toFixed(1)} to ${high.years.toFixed(1)} years from new cells.`,
      }
    case 'further-than-seen':
      return {
        daysFromNow: paper,
        from: 'paper',
        says: `Its voltage does not meet the limit within ${measured.horizonDays} days, as far as its slope may be drawn on: the budget is not contradicted.`,
      }
    case 'no-slope':
      return {
        daysFromNow: paper,
        from: 'paper',
        says: 'Its voltage shows no slope, so it can neither confirm nor correct the budget: cells of a flat chemistry stay level and end within days.',
      }
    default:
      return { daysFromNow: null, from: 'paper', says: 'Nothing measured: the budget stands alone.' }
  }
}
