import { quadraticForms } from './batch-products.ts'
import type { BlockExtent } from './block-layout.ts'
import { dot } from './cholesky.ts'
import { heldVariance } from './krige-at.ts'
import type { KrigingSystem } from './kriging-system.ts'
import { type Blocks, createBlocks } from './lattice-blocks.ts'
import { smoothVariances } from './smooth-variances.ts'

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
  /** Nodes solved directly. */
  readonly solvedDirectly: number
}

/** Share of a variance that its error may come to; the correction is counted as leaving as much as it mends. */
const allowedError = 0.004

/** Widths of blocks, in distances that points lie apart: first these, then finer ones where too many nodes are off. */
const widthShares = [0.85, 0.45] as const
const toleratedShare = 0.08

/**
 * Estimates at every wanted node (null: all of them), in steps; each yields the share done. Estimates are the direct
 * solution's. Variances of many points are the direct solution's in all that the near points do, and interpolate only
 * what the far ones add, which is smooth; each block is held against the direct solution at its middle, and every
 * node where the error found there would matter is solved directly.
 */
export function* krigeLattice(
  system: KrigingSystem,
  lattice: Lattice,
  wanted: Uint8Array | null,
): Generator<number, LatticeEstimates> {
  const { columns, rows } = lattice
  const values = new Float64Array(columns * rows).fill(Number.NaN)
  const variances = new Float64Array(columns * rows).fill(Number.NaN)
  const direct = createDirect(system, lattice, values, variances)
  const blocks = createBlocks(system, lattice, wanted, values, variances, widthShares[0])
  if (blocks === null) {
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        const node = row * columns + column
        if (wanted === null || wanted[node] !== 0) direct.add(node)
      }
      if (row % 8 === 7) yield row / rows
    }
    return { values, variances, solvedDirectly: direct.finish() }
  }
  const fillSmooth = smoothVariances(system, lattice, variances)
  let rough = yield* solveBlocks(blocks, lattice, wanted, variances, fillSmooth, 0, 0.5)
  if (rough.length > toleratedShare * wantedCount(wanted, columns * rows)) {
    // What the far points add bends within these blocks; in smaller ones it hardly does.
    const finer = createBlocks(system, lattice, wanted, values, variances, widthShares[1])
    if (finer !== null) rough = yield* solveBlocks(finer, lattice, wanted, variances, fillSmooth, 0.5, 0.9)
  }
  for (const [at, node] of rough.entries()) {
    direct.add(node)
    if (at % 512 === 511) yield 0.9 + (0.1 * at) / rough.length
  }
  const solvedDirectly = direct.finish()
  if (wanted !== null)
    for (let node = 0; node < wanted.length; node++)
      if (wanted[node] === 0) {
        values[node] = Number.NaN
        variances[node] = Number.NaN
      }
  return { values, variances, solvedDirectly }
}

/** Solves all blocks; gives the wanted nodes where the error found would matter. */
function* solveBlocks(
  blocks: Blocks,
  { columns }: Lattice,
  wanted: Uint8Array | null,
  variances: Float64Array,
  fillSmooth: ReturnType<typeof smoothVariances>,
  begun: number,
  ended: number,
): Generator<number, readonly number[]> {
  const shareAt = (done: number) => begun + (ended - begun) * done
  for (const done of blocks.prepare()) yield shareAt(done)
  const offs = new Float64Array(blocks.count)
  for (let index = 0; index < blocks.count; index++) {
    const extent = blocks.extentOf(index)
    let off: number = blocks.solve(index, blocks.near)
    if (Number.isFinite(off) && off > 0.02 * least(variances, columns, extent))
      off = blocks.solve(index, 3 * blocks.near)
    offs[index] = off
    if (index % 16 === 15) yield shareAt(0.4 + (0.6 * index) / blocks.count)
  }
  const rough: number[] = []
  for (let at = 0; at < blocks.count; at++) {
    // One middle may be right by chance where its neighbours are not.
    const off: number = worstAround(offs, at, blocks.across)
    const all: boolean = offs[at] === Number.POSITIVE_INFINITY
    const extent = blocks.extentOf(at)
    if (off > allowedError * least(variances, columns, extent) && fillSmooth?.(extent)) continue
    const { left, right, low, high } = extent
    for (let row = low; row < high; row++)
      for (let node = row * columns + left; node < row * columns + right; node++) {
        if (wanted !== null && wanted[node] === 0) continue
        if (all || !(off <= allowedError * (variances[node] as number))) rough.push(node)
      }
  }
  return rough
}

const wantedCount = (wanted: Uint8Array | null, nodes: number) =>
  wanted === null ? nodes : wanted.reduce((sum, one) => sum + one, 0)

/** The greatest finite error at the middle of a block and of those around it. */
function worstAround(offs: Float64Array, index: number, across: number): number {
  let worst = 0
  const column = index % across
  for (let y = -1; y <= 1; y++)
    for (let x = Math.max(0, column - 1); x <= Math.min(across - 1, column + 1); x++) {
      const off = offs[index - column + x + y * across]
      if (off !== undefined && Number.isFinite(off)) worst = Math.max(worst, off)
    }
  return worst
}

function least(variances: Float64Array, columns: number, { left, right, low, high }: BlockExtent): number {
  let lowest = Number.POSITIVE_INFINITY
  for (let row = low; row < high; row++)
    for (let column = left; column < right; column++) {
      const own = variances[row * columns + column] as number
      if (own < lowest) lowest = own
    }
  return lowest
}

interface Direct {
  add(node: number): void
  /** How many nodes were solved. */
  finish(): number
}

/** Solves nodes one by one, in batches. */
function createDirect(
  system: KrigingSystem,
  lattice: Lattice,
  values: Float64Array,
  variances: Float64Array,
): Direct {
  const { size, terms, weights, inverse, knownMean, covariance } = system
  const batch = 32
  const right = new Float64Array(batch * size)
  const forms = new Float64Array(batch)
  const nodes = new Int32Array(batch)
  let filled = 0
  let solved = 0
  const flush = () => {
    quadraticForms(inverse, size, right, filled, forms)
    for (let place = 0; place < filled; place++) {
      const node = nodes[place] as number
      values[node] = knownMean + dot(weights, 0, right, place * size, size)
      variances[node] = heldVariance(system, covariance.atPlace - (forms[place] as number))
    }
    solved += filled
    filled = 0
  }
  return {
    add(node) {
      const column = node % lattice.columns
      const east = lattice.east + column * lattice.eastStepMetres
      const north = lattice.north + ((node - column) / lattice.columns) * lattice.northStepMetres
      system.fillCovariances(east, north, right, filled * size)
      system.fillDrift(east, north, right, filled * size + size - terms)
      nodes[filled++] = node
      if (filled === batch) flush()
    },
    finish() {
      if (filled > 0) flush()
      return solved
    },
  }
}
