/** Vertical depth, m, that gauges reach which lean from the vertical by angles along one axis: Σ L · cos θ. */
export const verticalDepthMetres = (
  gauges: readonly { readonly lengthMetres: number; readonly tiltDegrees: number }[],
): number =>
  gauges.reduce(
    (sum, { lengthMetres, tiltDegrees }) => sum + lengthMetres * Math.cos((tiltDegrees * Math.PI) / 180),
    0,
  )
