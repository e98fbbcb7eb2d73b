import type { ValueGrid } from './value-grid.ts'

/** Of the steepest way at every node, in the value's unit per metre (mm/m for mm); NaN where a neighbour is missing. */
export function slopeGrid({ cellMetres, columns, rows, values, mask }: ValueGrid): Float64Array {
  const slopes = new Float64Array(values.length).fill(Number.NaN)
  for (let row = 1; row < rows - 1; row++)
    for (let column = 1; column < columns - 1; column++) {
      const node = row * columns + column
      const around = [node + 1, node - 1, node + columns, node - columns] as const
      if (mask[node] !== 0 || around.some((other) => mask[other] !== 0)) continue
      const [east, west, north, south] = around.map((other) => values[other]) as [
        number,
        number,
        number,
        number,
      ]
      slopes[node] = Math.hypot(east - west, north - south) / (2 * cellMetres)
    }
  return slopes
}

/**
 * Angular distortion in the middle of two bays in one line, each about `bayMetres` long: slope of a bay less the tilt
 * of both (Burland and Wroth 1974), in the value's unit per metre; the greatest of four directions. NaN where an end
 * of any is missing. It is that of the ground: a building bends less.
 */
export function angularDistortionGrid(grid: ValueGrid, bayMetres: number): Float64Array {
  const { cellMetres, columns, rows, values, mask } = grid
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
        if (mask[one] !== 0 || mask[other] !== 0) {
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
