import type { SitePoint } from '../geometry/site-grid.ts'
import type { GridPlace, ValueGrid } from './value-grid.ts'

/** True where two places must not be compared, as a barrier stands between them. */
export type Parted = (one: SitePoint, other: SitePoint) => boolean

/** Rise eastwards and northwards at every node, in the value's unit per metre; NaN where it cannot be told. */
export interface GradientGrid {
  readonly east: Float64Array
  readonly north: Float64Array
}

/**
 * Gradient at every node over `reachCells` to either side. NaN where one of the four neighbours is missing or stands
 * beyond a barrier.
 */
export function gradientGrid(
  { values, mask, ...place }: ValueGrid,
  reachCells = 1,
  isParted: Parted | null = null,
): GradientGrid {
  const { cellMetres, columns, rows } = place
  const east = new Float64Array(values.length).fill(Number.NaN)
  const north = new Float64Array(values.length).fill(Number.NaN)
  for (let row = reachCells; row < rows - reachCells; row++)
    for (let column = reachCells; column < columns - reachCells; column++) {
      const node = row * columns + column
      const [toEast, toNorth] = [reachCells, reachCells * columns]
      const around = [node + toEast, node - toEast, node + toNorth, node - toNorth] as const
      if (mask[node] !== 0 || around.some((other) => mask[other] !== 0)) continue
      if (isParted !== null) {
        const here = placeOfNode(place, node)
        if (around.some((other) => isParted(here, placeOfNode(place, other)))) continue
      }
      const of = (at: number) => values[at] as number
      east[node] = (of(around[0]) - of(around[1])) / (2 * reachCells * cellMetres)
      north[node] = (of(around[2]) - of(around[3])) / (2 * reachCells * cellMetres)
    }
  return { east, north }
}

/** Of the steepest way at every node, in the value's unit per metre (mm/m for mm); NaN as in `gradientGrid`. */
export function slopeGrid(grid: ValueGrid, reachCells = 1, isParted: Parted | null = null): Float64Array {
  const { east, north } = gradientGrid(grid, reachCells, isParted)
  return east.map((eastward, node) => Math.hypot(eastward, north[node] as number))
}

/**
 * Angular distortion in the middle of two bays in one line, each about `bayMetres` long: slope of a bay less the tilt
 * of both (Burland and Wroth 1974), in the value's unit per metre; the greatest of four directions. NaN where an end
 * of any is missing or stands beyond a barrier. It is that of the ground: a building bends less.
 */
export function angularDistortionGrid(
  { values, mask, ...place }: ValueGrid,
  bayMetres: number,
  isParted: Parted | null = null,
): Float64Array {
  const { cellMetres, columns, rows } = place
  const greatest = new Float64Array(values.length).fill(Number.NaN)
  const straight = Math.max(1, Math.round(bayMetres / cellMetres))
  const slanting = Math.max(1, Math.round(bayMetres / (cellMetres * Math.SQRT2)))
  const ways = [
    [straight, 0],
    [0, straight],
    [slanting, slanting],
    [slanting, -slanting],
  ] as const
  for (let row = straight; row < rows - straight; row++)
    for (let column = straight; column < columns - straight; column++) {
      const node = row * columns + column
      if (mask[node] !== 0) continue
      let most = 0
      for (const [east, north] of ways) {
        const [one, other] = [node + north * columns + east, node - north * columns - east]
        const parted = () => isParted?.(placeOfNode(place, one), placeOfNode(place, other)) ?? false
        if (mask[one] !== 0 || mask[other] !== 0 || parted()) {
          most = Number.NaN
          break
        }
        const bay = Math.hypot(east, north) * cellMetres
        const bent = 2 * (values[node] as number) - (values[one] as number) - (values[other] as number)
        most = Math.max(most, Math.abs(bent) / (2 * bay))
      }
      greatest[node] = most
    }
  return greatest
}

/** Where a node stands on the site grid. */
export function placeOfNode({ origin, cellMetres, columns }: GridPlace, node: number): SitePoint {
  const column = node % columns
  return [origin[0] + column * cellMetres, origin[1] + ((node - column) / columns) * cellMetres]
}
