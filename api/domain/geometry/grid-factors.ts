import proj4 from 'proj4'
import { combinedFactorOf } from './ground-distance.ts'
import { transformPlane } from './plane-transform.ts'
import type { SiteGrid, SitePoint } from './site-grid.ts'

/** How the site grid lies on the ground at a point. */
export interface GridFactors {
  /** Grid metres per metre on the ellipsoid; below 1 near the middle of most map grids. */
  readonly pointScaleFactor: number
  /** R / (R + h): metres on the ellipsoid per metre on the ground. */
  readonly heightFactor: number
  /** Their product: grid metres per metre on the ground. */
  readonly combinedFactor: number
  /** True bearing = grid bearing + convergence, degrees; east of the central meridian positive, north of the equator. */
  readonly convergenceDegrees: number
}

/**
 * Scale and convergence of a grid that is true to shape (transverse Mercator, Lambert conformal, oblique Mercator),
 * from the projection itself: how far and which way a step along the meridian goes on the grid. Of the CRS's own datum;
 * on another one, true north differs by seconds of arc. Heights are levels on the site's datum: that
 * the ellipsoid lies up to 100 m elsewhere changes a length by up to 16 mm per km, and is not corrected.
 */
export function gridFactorsAt(
  grid: Pick<SiteGrid, 'definition' | 'local'>,
  point: SitePoint,
  heightMetres: number,
): GridFactors {
  const projection = proj4.Proj(grid.definition)
  const local = grid.local
  const [x, y] = local ? transformPlane(local.toCrs, point) : point
  const here = projection.inverse({ x, y })
  const [north, meridianRadius] = [stepNorth(projection, here), meridianRadiusAt(projection, here.y)]
  const pointScaleFactor = Math.hypot(...north) / meridianRadius / (local?.scale ?? 1)
  const turn = (Math.atan2(-north[0], north[1]) * 180) / Math.PI - (local?.rotationDegrees ?? 0)
  return {
    pointScaleFactor,
    heightFactor: combinedFactorOf(1, heightMetres),
    combinedFactor: combinedFactorOf(pointScaleFactor, heightMetres),
    convergenceDegrees: turn > 180 ? turn - 360 : turn <= -180 ? turn + 360 : turn,
  }
}

type Projection = ReturnType<typeof proj4.Proj>
interface Radians {
  readonly x: number
  readonly y: number
}

/** Grid metres east and north per radian of latitude, by a five-point difference: good to some 1e-11. */
function stepNorth(projection: Projection, { x, y }: Radians): readonly [number, number] {
  const step = 1e-4
  const at = (steps: number) => projection.forward({ x, y: y + steps * step })
  const [back2, back, on, on2] = [at(-2), at(-1), at(1), at(2)]
  const slope = (of: (place: Radians) => number) =>
    (of(back2) - 8 * of(back) + 8 * of(on) - of(on2)) / (12 * step)
  return [slope((place) => place.x), slope((place) => place.y)]
}

function meridianRadiusAt(projection: Projection, latitudeRadians: number): number {
  const { a, es } = projection as unknown as { a: number; es: number }
  return (a * (1 - es)) / (1 - es * Math.sin(latitudeRadians) ** 2) ** 1.5
}
