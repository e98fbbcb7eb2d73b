import { reasonWithoutValue } from '../analysis.ts'

/** A settlement point across a tunnel; offset from the line of the tunnel, right of travel positive. */
export interface TroughPoint {
  readonly id: string
  readonly offsetMetres: number
  /** Positive downwards; null: no value known. */
  readonly settlementMm: number | null
  /** Null: not known. It is shown, and gives no weight. */
  readonly standardUncertaintyMm: number | null
  readonly late: boolean
}

export type KnownTroughPoint = TroughPoint & { readonly settlementMm: number }

export function reasonToLeaveOut({ offsetMetres, settlementMm, late }: TroughPoint): string | null {
  if (!Number.isFinite(offsetMetres)) return 'Its offset is not known.'
  return reasonWithoutValue(settlementMm, late)
}
