import type { SitePoint } from '../geometry/site-grid.ts'
import type { ValueGrid } from './value-grid.ts'

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
