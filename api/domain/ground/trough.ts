export interface TunnelDrive {
  readonly diameterMetres: number
  /** Depth of the axis (not the crown) below ground. */
  readonly axisDepthMetres: number
  /** Share of the face area lost: 0.01 for 1 %. */
  readonly volumeLoss: number
  /** K of i = K z₀: about 0.5 in clay, 0.25 to 0.35 in sand. */
  readonly widthParameter: number
}

/** Settlement trough across a tunnel. Settlement is positive downwards. */
export interface Trough {
  /** i, from the axis to the steepest place. */
  readonly widthMetres: number
  readonly volumeM3PerMetre: number
  readonly greatestSettlementMm: number
}

/**
 * Gaussian trough at ground level: i = K z₀ (O'Reilly & New 1982), volume = loss × face area,
 * greatest settlement = volume / (√(2π) i) (Peck 1969).
 */
export function gaussianTrough(drive: TunnelDrive): Trough {
  return troughOfWidth(drive, drive.widthParameter * drive.axisDepthMetres)
}

/**
 * The same at a depth below ground in clay, where i/z₀ = 0.175 + 0.325 (1 − z/z₀) (Mair, Taylor & Bracegirdle 1993,
 * from memory) and the volume is kept. Null at or below the axis.
 */
export function troughBelowGround(drive: TunnelDrive, depthMetres: number): Trough | null {
  if (depthMetres >= drive.axisDepthMetres) return null
  const share = 0.175 + 0.325 * (1 - depthMetres / drive.axisDepthMetres)
  return troughOfWidth(drive, share * drive.axisDepthMetres)
}

/** Settlement in mm at an offset from the axis, S = S_max exp(−y²/2i²); the same on both sides. */
export function settlementAt(trough: Trough, offsetMetres: number): number {
  return trough.greatestSettlementMm * Math.exp(-0.5 * (offsetMetres / trough.widthMetres) ** 2)
}

/** Slope dS/dy in mm per metre: negative on the right, where settlement falls off; steepest at ±i. */
export function slopeAt(trough: Trough, offsetMetres: number): number {
  return (-offsetMetres / trough.widthMetres ** 2) * settlementAt(trough, offsetMetres)
}

/** d²S/dy² in mm per m²: negative where the ground sags (within ±i), positive where it hogs, most at ±√3 i. */
export function curvatureAt(trough: Trough, offsetMetres: number): number {
  const { widthMetres } = trough
  return ((offsetMetres / widthMetres) ** 2 - 1) * (settlementAt(trough, offsetMetres) / widthMetres ** 2)
}

function troughOfWidth({ diameterMetres, volumeLoss }: TunnelDrive, widthMetres: number): Trough {
  const volumeM3PerMetre = (volumeLoss * Math.PI * diameterMetres ** 2) / 4
  return {
    widthMetres,
    volumeM3PerMetre,
    greatestSettlementMm: (1000 * volumeM3PerMetre) / (Math.sqrt(2 * Math.PI) * widthMetres),
  }
}
