import { dot } from './cholesky.ts'
import { quadraticForms } from './batch-products.ts'
import { createBlocks } from './lattice-blocks.ts'
import type { KrigingSystem } from './kriging-system.ts'

/** Nodes of a grid, from the system's origin, columns eastwards and rows northwards. */
export interface Lattice {
  readonly east: number
  readonly north: number
  readonly eastStepMetres: number
  readonly northStepMetres: number
  readonly columns: number
  readonly rows: number
}

export interface LatticeEstimates {
  /** NaN where not wanted. */
  readonly values: Float64Array
  readonly variances: Float64Array
  /** Greatest share by which a variance was found off the direct solution where that was looked at; 0: all direct. */
  readonly greatestVarianceError: number
  /** Nodes solved directly. */
  readonly solvedDirectly: number
}

/** Largest share by which the variance at the middle of a block may be off before the block is solved anew. */
const allowedError = 0.002

/**
 * Estimates at every wanted node (null: all of them), in steps; each yields the share done. Estimates are the direct
 * solution's. Variances of many points are the direct solution's in all that the near points do, and interpolate only
 * what the far ones add, which is smooth; each block is held against the direct solution at its middle and solved
 * directly where it is off by more than a five-hundredth.
 */
export function* krigeLattice(
  system: KrigingSystem,
  lattice: Lattice,
  wanted: Uint8Array | null,
): Generator<number, LatticeEstimates> {
  const count = lattice.columns * lattice.rows
  const values = new Float64Array(count).fill(Number.NaN)
  const variances = new Float64Array(count).fill(Number.NaN)
  const direct = createDirect(system, lattice, values, variances)
  const blocks = createBlocks(system, lattice, wanted, values, variances)
  let greatestVarianceError = 0
  let solvedDirectly = 0
  if (blocks === null) {
    for (let row = 0; row < lattice.rows; row++) {
      solvedDirectly += direct(0, lattice.columns, row, row + 1, wanted)
      if (row % 8 === 7) yield row / lattice.rows
    }
    return { values, variances, greatestVarianceError, solvedDirectly }
  }
  yield* blocks.prepare()
  for (let index = 0; index < blocks.count; index++) {
    const { left, right, low, high } = blocks.extentOf(index)
    let off = blocks.solve(index, blocks.near)
    if (off > allowedError) off = blocks.solve(index, 3 * blocks.near)
    if (off > allowedError) solvedDirectly += direct(left, right, low, high, wanted)
    else greatestVarianceError = Math.max(greatestVarianceError, off)
    if (index % 16 === 15) yield 0.4 + (0.6 * index) / blocks.count
  }
  return { values, variances, greatestVarianceError, solvedDirectly }
}

/** Solves a box of nodes one by one, in batches; gives how many. */
function createDirect(
  system: KrigingSystem,
  lattice: Lattice,
  values: Float64Array,
  variances: Float64Array,
) {
  const { size, terms, weights, inverse, knownMean, covariance } = system
  const batch = 32
  const right = new Float64Array(batch * size)
  const forms = new Float64Array(batch)
  const nodes = new Int32Array(batch)
  const flush = (filled: number) => {
    quadraticForms(inverse, size, right, filled, forms)
    for (let place = 0; place < filled; place++) {
      const node = nodes[place] as number
      values[node] = knownMean + dot(weights, 0, right, place * size, size)
      variances[node] = Math.max(0, covariance.atPlace - (forms[place] as number))
    }
  }
  return (left: number, rightEnd: number, low: number, high: number, wanted: Uint8Array | null): number => {
    let filled = 0
    let solved = 0
    for (let row = low; row < high; row++)
      for (let column = left; column < rightEnd; column++) {
        const node = row * lattice.columns + column
        if (wanted && wanted[node] === 0) continue
        const east = lattice.east + column * lattice.eastStepMetres
        const north = lattice.north + row * lattice.northStepMetres
        system.fillCovariances(east, north, right, filled * size)
        system.fillDrift(east, north, right, filled * size + size - terms)
        nodes[filled++] = node
        solved++
        if (filled === batch) {
          flush(filled)
          filled = 0
        }
      }
    if (filled > 0) flush(filled)
    return solved
  }
}
