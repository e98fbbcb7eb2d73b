import type { SurfaceMesh } from './settlement-surface.ts'
import { gridOver, type ValueGrid } from './value-grid.ts'

/** A surface at the nodes of a grid, with its standard deviation there; null where the method states none. */
export interface SurfaceField {
  readonly grid: ValueGrid
  readonly standardDeviations: Float64Array | null
}

/**
 * A linear surface at the nodes of a grid, with the deviation that the points' own uncertainties give it: NaN where one
 * is not known, null where none is. It says nothing of the ground between the points.
 */
export function fieldOfMesh(mesh: SurfaceMesh, nodes: number): SurfaceField {
  const { triangles, east, north, valueMm } = mesh
  const used = [...new Set(triangles)]
  const [easts, norths] = [
    used.map((node) => east[node] as number),
    used.map((node) => north[node] as number),
  ]
  const local = gridOver(
    { low: [Math.min(...easts), Math.min(...norths)], high: [Math.max(...easts), Math.max(...norths)] },
    nodes,
  )
  const { columns, rows, cellMetres } = local
  const values = new Float64Array(columns * rows).fill(Number.NaN)
  const standardDeviations = new Float64Array(columns * rows).fill(Number.NaN)
  const mask = new Uint8Array(columns * rows).fill(1)
  for (let side = 0; side < triangles.length; side += 3) {
    const corners = [triangles[side], triangles[side + 1], triangles[side + 2]] as [number, number, number]
    const [a, b, c] = corners.map((node) => [east[node] as number, north[node] as number] as const) as [
      readonly [number, number],
      readonly [number, number],
      readonly [number, number],
    ]
    const twice = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    const within = (low: number, axis: 0 | 1, least: boolean) => {
      const at = least ? Math.min(a[axis], b[axis], c[axis]) : Math.max(a[axis], b[axis], c[axis])
      return least ? Math.ceil((at - low) / cellMetres - 1e-9) : Math.floor((at - low) / cellMetres + 1e-9)
    }
    for (
      let row = Math.max(0, within(local.origin[1], 1, true));
      row <= within(local.origin[1], 1, false);
      row++
    )
      for (
        let column = Math.max(0, within(local.origin[0], 0, true));
        column <= within(local.origin[0], 0, false);
        column++
      ) {
        if (row >= rows || column >= columns) continue
        const [e, n] = [local.origin[0] + column * cellMetres, local.origin[1] + row * cellMetres]
        const ofB = ((e - a[0]) * (c[1] - a[1]) - (n - a[1]) * (c[0] - a[0])) / twice
        const ofC = ((b[0] - a[0]) * (n - a[1]) - (b[1] - a[1]) * (e - a[0])) / twice
        const weights = [1 - ofB - ofC, ofB, ofC] as const
        if (Math.min(...weights) < -1e-9) continue
        const node = row * columns + column
        values[node] = corners.reduce(
          (sum, corner, at) => sum + (weights[at] as number) * (valueMm[corner] as number),
          0,
        )
        standardDeviations[node] = deviationOf(mesh, corners, weights)
        mask[node] = 0
      }
  }
  const origin = [mesh.origin[0] + local.origin[0], mesh.origin[1] + local.origin[1]] as const
  return {
    grid: { ...local, origin, values, mask },
    standardDeviations: standardDeviations.some((one) => one > 0) ? standardDeviations : null,
  }
}

function deviationOf(
  { meanOf, uncertaintyMm }: SurfaceMesh,
  corners: readonly number[],
  weights: readonly number[],
): number {
  const shares = new Map<number, number>()
  corners.forEach((corner, at) => {
    const places = meanOf[corner] as readonly number[]
    for (const place of places)
      shares.set(place, (shares.get(place) ?? 0) + (weights[at] as number) / places.length)
  })
  let variance = 0
  for (const [place, share] of shares)
    if (share !== 0) variance += (share * (uncertaintyMm[place] as number)) ** 2
  return Math.sqrt(variance)
}
