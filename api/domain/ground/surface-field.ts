import type { SurfaceMesh } from './settlement-surface.ts'
import { gridOver, type ValueGrid } from './value-grid.ts'

/** A surface at the nodes of a grid, with its standard deviation there; null where the method states none. */
export interface SurfaceField {
  readonly grid: ValueGrid
  readonly standardDeviations: Float64Array | null
  /**
   * Linear pieces: standard error of their slope, a metre, in the way in which it is worst known: thin triangles tilt with
   * little. NaN where an uncertainty is not known; null for other surfaces.
   */
  readonly slopeErrors: Float64Array | null
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
  const slopeErrors = new Float64Array(columns * rows).fill(Number.NaN)
  const mask = new Uint8Array(columns * rows).fill(1)
  for (let side = 0; side < triangles.length; side += 3) {
    const corners = [triangles[side], triangles[side + 1], triangles[side + 2]] as [number, number, number]
    const [a, b, c] = corners.map((node) => [east[node] as number, north[node] as number] as const) as [
      readonly [number, number],
      readonly [number, number],
      readonly [number, number],
    ]
    const twice = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    const slopeError = worstSlopeError(mesh, corners, [
      [(b[1] - c[1]) / twice, (c[0] - b[0]) / twice],
      [(c[1] - a[1]) / twice, (a[0] - c[0]) / twice],
      [(a[1] - b[1]) / twice, (b[0] - a[0]) / twice],
    ])
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
        slopeErrors[node] = slopeError
        mask[node] = 0
      }
  }
  const origin = [mesh.origin[0] + local.origin[0], mesh.origin[1] + local.origin[1]] as const
  return {
    grid: { ...local, origin, values, mask },
    standardDeviations: standardDeviations.some((one) => one > 0) ? standardDeviations : null,
    slopeErrors,
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

/** Root of the greater eigenvalue of the covariance of a triangle's two slopes; `rises` is what each corner adds to them. */
function worstSlopeError(
  { meanOf, uncertaintyMm }: SurfaceMesh,
  corners: readonly number[],
  rises: readonly (readonly [east: number, north: number])[],
): number {
  const shares = new Map<number, [number, number]>()
  corners.forEach((corner, at) => {
    const places = meanOf[corner] as readonly number[]
    for (const place of places) {
      const [east, north] = shares.get(place) ?? [0, 0]
      const [alongEast, alongNorth] = rises[at] as readonly [number, number]
      shares.set(place, [east + alongEast / places.length, north + alongNorth / places.length])
    }
  })
  let [ee, nn, en] = [0, 0, 0]
  for (const [place, [east, north]] of shares) {
    const variance = (uncertaintyMm[place] as number) ** 2
    ee += variance * east * east
    nn += variance * north * north
    en += variance * east * north
  }
  return Math.sqrt((ee + nn) / 2 + Math.hypot((ee - nn) / 2, en))
}
