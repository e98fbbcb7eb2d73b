import type { SitePoint } from '../geometry/site-grid.ts'
import { accept, type Outcome, reject } from '../outcome.ts'
import type { ValueGrid } from './value-grid.ts'

/** The surface under a point of a line. */
export interface SectionPoint {
  readonly chainageMetres: number
  readonly point: SitePoint
  /** Null where nothing is shown: a gap, and never no movement. */
  readonly value: number | null
}

/**
 * Cuts a grid along a line, at its corners and every `stepMetres`; between nodes the four around are weighted
 * (bilinear), and where one of them is not shown there is no value. Refused where the line meets nothing shown.
 */
export function gridSection(
  grid: ValueGrid,
  line: readonly SitePoint[],
  stepMetres: number,
): Outcome<readonly SectionPoint[]> {
  const points: SectionPoint[] = []
  let chainageMetres = 0
  line.forEach((to, index) => {
    const from = line[index - 1]
    if (!from) {
      points.push({ chainageMetres, point: to, value: gridValueAt(grid, to) })
      return
    }
    const length = Math.hypot(to[0] - from[0], to[1] - from[1])
    const steps = Math.max(1, Math.ceil(length / stepMetres - 1e-9))
    for (let step = 1; step <= steps; step++) {
      const share = step / steps
      const point: SitePoint = [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]
      points.push({ chainageMetres: chainageMetres + share * length, point, value: gridValueAt(grid, point) })
    }
    chainageMetres += length
  })
  if (points.some(({ value }) => value !== null)) return accept(points)
  return reject({
    code: 'section-meets-nothing',
    value: `${Math.round(chainageMetres)} m`,
    expected: 'a line over the surface',
    message: `The section line of ${Math.round(chainageMetres)} m crosses no part of the surface that is shown. Draw it between the points, or look at why the surface is masked there.`,
  })
}

/** Bilinear between the four nodes around a point; null where one of them is not shown or the point lies outside. */
export function gridValueAt(
  { origin, cellMetres, columns, rows, values, mask }: ValueGrid,
  point: SitePoint,
) {
  const east = (point[0] - origin[0]) / cellMetres
  const north = (point[1] - origin[1]) / cellMetres
  if (!(east >= 0 && north >= 0 && east <= columns - 1 && north <= rows - 1)) return null
  const column = Math.min(Math.floor(east), columns - 2)
  const row = Math.min(Math.floor(north), rows - 2)
  const [x, y] = [east - column, north - row]
  let value = 0
  for (const [dx, dy] of [
    [0, 0],
    [1, 0],
    [0, 1],
    [1, 1],
  ] as const) {
    const share = (dx === 1 ? x : 1 - x) * (dy === 1 ? y : 1 - y)
    if (share === 0) continue
    const node = (row + dy) * columns + column + dx
    if (mask[node] !== 0) return null
    value += share * (values[node] as number)
  }
  return value
}
