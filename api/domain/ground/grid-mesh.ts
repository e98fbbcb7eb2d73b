import type { SurfaceMesh } from './settlement-surface.ts'
import type { ValueGrid } from './value-grid.ts'

/**
 * The shown squares of a grid, each cut into two triangles along its rising diagonal, as the mesh that contours, bands
 * and volumes are taken from. Squares with a corner that is not shown are left out.
 */
export function gridMesh({ origin, cellMetres, columns, rows, values, mask }: ValueGrid): SurfaceMesh {
  const east = new Float64Array(values.length)
  const north = new Float64Array(values.length)
  for (let node = 0; node < values.length; node++) {
    const column = node % columns
    east[node] = column * cellMetres
    north[node] = ((node - column) / columns) * cellMetres
  }
  const isShown = (column: number, row: number) => {
    if (column < 0 || row < 0 || column >= columns - 1 || row >= rows - 1) return false
    const node = row * columns + column
    return (
      mask[node] === 0 && mask[node + 1] === 0 && mask[node + columns] === 0 && mask[node + columns + 1] === 0
    )
  }
  const triangles: number[] = []
  const sides: number[] = []
  const rim: number[] = []
  for (let row = 0; row < rows - 1; row++)
    for (let column = 0; column < columns - 1; column++) {
      if (!isShown(column, row)) continue
      const sw = row * columns + column
      const [se, nw, ne] = [sw + 1, sw + columns, sw + columns + 1]
      triangles.push(sw, se, ne, sw, ne, nw)
      // A side by its south-west node: eastwards, northwards, rising.
      sides.push(3 * sw, 3 * se + 1, 3 * sw + 2, 3 * sw + 2, 3 * nw, 3 * sw + 1)
      if (!isShown(column, row - 1)) rim.push(sw, se)
      if (!isShown(column + 1, row)) rim.push(se, ne)
      if (!isShown(column, row + 1)) rim.push(ne, nw)
      if (!isShown(column - 1, row)) rim.push(nw, sw)
    }
  return {
    origin,
    east,
    north,
    valueMm: values,
    meanOf: [],
    uncertaintyMm: new Float64Array(0),
    triangles: Uint32Array.from(triangles),
    rim: Uint32Array.from(rim),
    sides: { ids: Uint32Array.from(sides), count: 3 * values.length },
    extentMetres: Math.max(columns, rows) * cellMetres,
  }
}
