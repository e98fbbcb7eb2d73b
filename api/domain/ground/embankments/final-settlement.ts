import type { LineFit } from '../../statistics/least-squares.ts'
import { type Analysis, type LeftOut, sortOut } from '../analysis.ts'

/** Settlement, downwards positive, under a load that no longer changes. */
export interface SettlementReading {
  /** Since the end of loading. */
  readonly atDays: number
  readonly settlementMm: number | null
}

export type KnownSettlement = SettlementReading & { readonly settlementMm: number }

export interface FinalSettlement extends Analysis<SettlementReading, KnownSettlement> {
  readonly finalSettlementMm: number
  /** To first order from the fitted line; scatter of the readings only. */
  readonly standardErrorMm: number
  readonly fit: LineFit
  /** Whole sentence: in which direction the method errs. */
  readonly bias: string
}

/** Part of a record that a forecast rests on. */
export interface FittingWindow {
  readonly fromDays: number
  /** Null: to the last reading. */
  readonly untilDays: number | null
}

/** Readings of a window in the order of time; those without a value, outside it or at a repeated instant are left out. */
export function readingsOfWindow(
  readings: readonly SettlementReading[],
  { fromDays, untilDays }: FittingWindow,
): { readonly used: readonly KnownSettlement[]; readonly leftOut: readonly LeftOut<SettlementReading>[] } {
  const seen = new Set<number>()
  return sortOut<SettlementReading, KnownSettlement>(
    readings.toSorted((one, other) => one.atDays - other.atDays),
    ({ atDays, settlementMm }) => {
      if (!Number.isFinite(atDays)) return 'Its instant is not known.'
      if (atDays < fromDays) return 'It is from before the fitting window.'
      if (untilDays !== null && atDays > untilDays) return 'It is from after the fitting window.'
      if (settlementMm === null || !Number.isFinite(settlementMm)) return 'It has no value.'
      if (seen.has(atDays)) return 'Another reading has the same instant.'
      seen.add(atDays)
      return null
    },
  )
}

/** Readings of a series as days since the end of loading. */
export const settlementReadings = (
  atEpochMs: readonly number[],
  settlementMm: readonly (number | null)[],
  loadedAtEpochMs: number,
): readonly SettlementReading[] =>
  atEpochMs.map((instant, at) => ({
    atDays: (instant - loadedAtEpochMs) / 86_400_000,
    settlementMm: settlementMm[at] ?? null,
  }))
