import type { SitePoint } from '#domain/geometry/site-grid.ts'
import type { GradientArrows } from '#domain/ground/gradient-arrows.ts'

/** An arrow in outline, on the site grid. */
export interface ArrowOutline {
  readonly standing: GradientArrows['arrows'][number]['standing']
  readonly shaft: readonly SitePoint[]
  readonly head: readonly SitePoint[]
}

/** Arrows as long as their gradient asks, the longest nearly as long as their lattice; a ring where no direction is told. */
export function arrowOutlines({ arrows, latticeMetres }: GradientArrows): readonly ArrowOutline[] {
  const steepest = Math.max(...arrows.map(({ gradient }) => gradient), 1e-12)
  return arrows.map(({ place: [east, north], gradient, azimuthDegrees, standing }) => {
    if (standing === 'none') return { standing, shaft: [], head: ring([east, north], 0.07 * latticeMetres) }
    const length = 0.85 * latticeMetres * (gradient / steepest)
    const headLength = Math.min(0.28 * latticeMetres, Math.max(0.12 * latticeMetres, 0.4 * length))
    const angle = (azimuthDegrees * Math.PI) / 180
    const [alongEast, alongNorth] = [Math.sin(angle), Math.cos(angle)]
    const at = (along: number, across: number): SitePoint => [
      east + along * alongEast + across * alongNorth,
      north + along * alongNorth - across * alongEast,
    ]
    const [tail, tip] = [-length / 2, length / 2]
    const neck = tip - headLength
    return {
      standing,
      shaft: neck > tail ? [at(tail, 0), at(neck, 0)] : [],
      head: [at(tip, 0), at(neck, headLength * 0.42), at(neck, -headLength * 0.42), at(tip, 0)],
    }
  })
}

const ring = ([east, north]: SitePoint, radiusMetres: number): readonly SitePoint[] =>
  Array.from({ length: 17 }, (_, corner) => {
    const angle = (corner * Math.PI) / 8
    return [east + radiusMetres * Math.cos(angle), north + radiusMetres * Math.sin(angle)]
  })
