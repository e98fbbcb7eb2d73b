/** A value by depth; null where it is not known. */
export interface DepthValue {
  readonly depthMetres: number
  readonly value: number | null
}

/**
 * Displacements told from another fixed place: each minus that of the point at `fixedDepthMetres`.
 * The place they were relative to so far (the head, depth 0, value 0) may be among them.
 * Without a value at the fixed place none is known.
 */
export function relativeTo(values: readonly DepthValue[], fixedDepthMetres: number): readonly DepthValue[] {
  const fixed = values.find((one) => one.depthMetres === fixedDepthMetres)?.value ?? null
  return values.map((one) => ({
    depthMetres: one.depthMetres,
    value: fixed === null || one.value === null ? null : one.value - fixed,
  }))
}
