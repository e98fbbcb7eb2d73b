/** A levelled point or head with its settlement, downwards positive, since an instant. */
export interface SettledPlace {
  readonly id: string
  readonly eastingMetres: number
  readonly northingMetres: number
  /** Null: no value known. */
  readonly settlementMm: number | null
  /** Null: not known. */
  readonly standardUncertaintyMm: number | null
  readonly late: boolean
  /** When it was read; null: not known. */
  readonly readAtEpochMs: number | null
}

export type KnownPlace = SettledPlace & { readonly settlementMm: number }
