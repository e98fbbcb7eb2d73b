import { quadraticForms } from './batch-products.ts'
import type { BlockLayout } from './block-layout.ts'
import type { KrigingSystem } from './kriging-system.ts'
import { interpolated } from './needed-blocks.ts'

const batch = 32

/**
 * The direct solution's variance at the middle of every block that is interpolated, into `out`. Yields the share of
 * the whole that is done, from 0.2 to 0.4.
 */
export function* variancesAtMiddles(
  system: KrigingSystem,
  { eastOf, northOf, middleOf }: BlockLayout,
  needed: Uint8Array,
  out: Float64Array,
): Generator<number, void> {
  const { size, terms, inverse, covariance } = system
  const right = new Float64Array(batch * size)
  const forms = new Float64Array(batch)
  let held: number[] = []
  const flush = () => {
    quadraticForms(inverse, size, right, held.length, forms)
    held.forEach((index, place) => {
      out[index] = covariance.atPlace - (forms[place] as number)
    })
    held = []
  }
  for (let index = 0; index < needed.length; index++) {
    if (needed[index] !== interpolated) continue
    const [column, row] = middleOf(index)
    const from = held.length * size
    system.fillCovariances(eastOf(column), northOf(row), right, from)
    system.fillDrift(eastOf(column), northOf(row), right, from + size - terms)
    held.push(index)
    if (held.length === batch) {
      flush()
      yield 0.2 + (0.2 * index) / needed.length
    }
  }
  if (held.length > 0) flush()
}
