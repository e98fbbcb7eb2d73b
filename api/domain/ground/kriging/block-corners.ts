import { multiplyBatch } from './batch-products.ts'
import type { BlockLayout } from './block-layout.ts'
import { dot } from './cholesky.ts'
import type { KrigingSystem } from './kriging-system.ts'
import { interpolated } from './needed-blocks.ts'

/** The corners of all blocks and one row of them beyond on every side, solved once for all blocks that share them. */
export interface BlockCorners {
  /** Covariances and drift terms of each corner, `size` long. */
  readonly right: Float64Array
  /** The inverse times these. */
  readonly solved: Float64Array
  /** Yields the share of the whole that is done, up to 0.2. */
  prepare(): Generator<number, void>
  /** Of the 4 × 4 corners around a block, row by row from the south-west. */
  around(index: number, place: number): number
  /** κ of one corner with S·κ of another, kept: neighbouring blocks ask for the same. */
  productOf(one: number, other: number): number
}

const batch = 32

/** Corners of the blocks that are interpolated; nothing is solved before `prepare`. */
export function createCorners(
  system: KrigingSystem,
  { wide, tall, across, up, eastOf, northOf }: BlockLayout,
  needed: Uint8Array,
): BlockCorners {
  const { size, terms, inverse } = system
  const cornersAcross = across + 3
  const corners = cornersAcross * (up + 3)
  const right = new Float64Array(corners * size)
  const solved = new Float64Array(corners * size)
  const products = new Float64Array(corners * 28).fill(Number.NaN)

  const around = (index: number, place: number) =>
    (Math.floor(index / across) + (place >> 2)) * cornersAcross + (index % across) + (place & 3)

  function neededCorners(): Uint8Array {
    const marks = new Uint8Array(corners)
    for (let index = 0; index < needed.length; index++)
      if (needed[index] === interpolated)
        for (let place = 0; place < 16; place++) marks[around(index, place)] = 1
    return marks
  }

  function* prepare(): Generator<number, void> {
    const marks = neededCorners()
    for (let start = 0; start < corners; start += batch) {
      const end = Math.min(corners, start + batch)
      let any = false
      for (let corner = start; corner < end; corner++) {
        if (marks[corner] === 0) continue
        const east = eastOf(((corner % cornersAcross) - 1) * wide)
        const north = northOf((Math.floor(corner / cornersAcross) - 1) * tall)
        system.fillCovariances(east, north, right, corner * size, true)
        system.fillDrift(east, north, right, corner * size + size - terms)
        any = true
      }
      if (!any) continue
      const part = right.subarray(start * size, end * size)
      multiplyBatch(inverse, size, part, end - start, solved.subarray(start * size, end * size))
      yield (0.2 * end) / corners
    }
  }

  function productOf(one: number, other: number): number {
    const [from, to] = one < other ? [one, other] : [other, one]
    const y = Math.floor(to / cornersAcross) - Math.floor(from / cornersAcross)
    const x = (to % cornersAcross) - (from % cornersAcross)
    const key = from * 28 + y * 7 + x + 3
    const kept = products[key] as number
    if (!Number.isNaN(kept)) return kept
    const product = dot(right, from * size, solved, to * size, size)
    products[key] = product
    return product
  }

  return { right, solved, prepare, around, productOf }
}
