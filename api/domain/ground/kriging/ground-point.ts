/** A measured value at a place in plan, of whatever unit the surface is in. */
export interface GroundPoint {
  readonly id: string
  readonly eastingMetres: number
  readonly northingMetres: number
  /** Null: no value known. Its sign is the series' own. */
  readonly value: number | null
  /** Of the value, in its unit; null: not known, and then taken as 0 and said. */
  readonly standardUncertainty: number | null
  readonly late: boolean
}

export interface LeftOutPoint {
  readonly id: string
  readonly reason: string
}

/** Why a point has no part in a surface; null where it has. */
export function reasonToLeaveOut({
  eastingMetres,
  northingMetres,
  value,
  standardUncertainty,
  late,
}: GroundPoint): string | null {
  if (!Number.isFinite(eastingMetres) || !Number.isFinite(northingMetres)) return 'Its position is not known.'
  if (value === null || !Number.isFinite(value)) return 'It has no value.'
  if (standardUncertainty !== null && !(standardUncertainty >= 0 && Number.isFinite(standardUncertainty)))
    return 'Its standard uncertainty is not a number of 0 or more.'
  return late ? 'Its last reading is late: it has no current value.' : null
}
