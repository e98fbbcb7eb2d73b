import type { SurfaceMesh } from '../settlement-surface.ts'

/** Slope of one linear piece of a surface, and where its middle is, metres from the mesh's origin. */
export interface PieceSlope {
  readonly eastMetres: number
  readonly northMetres: number
  /** mm per metre, 0 or more. */
  readonly slopeMmPerM: number
  /** Slope left when the rigid tilt of the whole surface is taken out, mm per metre. */
  readonly angularDistortionMmPerM: number
}

/**
 * Slope and angular distortion of every triangle. The rigid tilt is the mean of the slopes, weighted with area. Over
 * points far apart both are means and hide what is steeper between.
 */
export function slopesOf(
  mesh: Pick<SurfaceMesh, 'east' | 'north' | 'valueMm' | 'triangles'>,
): readonly PieceSlope[] {
  const pieces: { east: number; north: number; alongEast: number; alongNorth: number; area: number }[] = []
  for (let at = 0; at < mesh.triangles.length; at += 3) {
    const [a, b, c] = [at, at + 1, at + 2].map((side) => mesh.triangles[side] as number) as [
      number,
      number,
      number,
    ]
    const of = (values: Float64Array) => [values[a], values[b], values[c]] as [number, number, number]
    const [e, n, v] = [of(mesh.east), of(mesh.north), of(mesh.valueMm)]
    const twice = (e[1] - e[0]) * (n[2] - n[0]) - (e[2] - e[0]) * (n[1] - n[0])
    if (twice === 0) continue
    pieces.push({
      east: (e[0] + e[1] + e[2]) / 3,
      north: (n[0] + n[1] + n[2]) / 3,
      alongEast: ((v[1] - v[0]) * (n[2] - n[0]) - (v[2] - v[0]) * (n[1] - n[0])) / twice,
      alongNorth: ((e[1] - e[0]) * (v[2] - v[0]) - (e[2] - e[0]) * (v[1] - v[0])) / twice,
      area: Math.abs(twice) / 2,
    })
  }
  const area = pieces.reduce((sum, piece) => sum + piece.area, 0)
  const tiltEast = pieces.reduce((sum, piece) => sum + piece.area * piece.alongEast, 0) / area
  const tiltNorth = pieces.reduce((sum, piece) => sum + piece.area * piece.alongNorth, 0) / area
  return pieces.map(({ east, north, alongEast, alongNorth }) => ({
    eastMetres: east,
    northMetres: north,
    slopeMmPerM: Math.hypot(alongEast, alongNorth),
    angularDistortionMmPerM: Math.hypot(alongEast - tiltEast, alongNorth - tiltNorth),
  }))
}

/** The steepest piece; null of an empty surface. */
export const steepestOf = (slopes: readonly PieceSlope[]): PieceSlope | null =>
  slopes.reduce<PieceSlope | null>(
    (most, one) => (most === null || one.slopeMmPerM > most.slopeMmPerM ? one : most),
    null,
  )
