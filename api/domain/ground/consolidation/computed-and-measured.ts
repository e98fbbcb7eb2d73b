/** Settlement computed at a string of piezometers beside what was measured there; both downwards positive. */
export interface ComputedAndMeasured {
  readonly differenceMm: number
  /** Measured over computed; null where nothing was computed to have settled. */
  readonly ratio: number | null
  /** Whole sentence. */
  readonly sentence: string
}

/** How measured settlement (a level or an extensometer over the same layers and the same time) compares with the computed one. */
export function compareSettlement(
  computedMm: number,
  measuredMm: number,
  uncertaintyMm: number,
): ComputedAndMeasured {
  const differenceMm = measuredMm - computedMm
  const beyond = Math.abs(differenceMm) > 2 * uncertaintyMm
  const found = `Measured ${measuredMm.toFixed(1)} mm, computed ${computedMm.toFixed(1)} mm`
  return {
    differenceMm,
    ratio: computedMm === 0 ? null : measuredMm / computedMm,
    sentence: beyond
      ? `${found}: ${Math.abs(differenceMm).toFixed(1)} mm ${differenceMm > 0 ? 'more' : 'less'} than computed; compressibility, drainage or vertical movement is not as assumed.`
      : `${found}: they differ by less than twice the measurement's standard uncertainty.`,
  }
}
