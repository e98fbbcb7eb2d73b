import { assert } from '../assert.ts'

const normalQuantile975 = 1.959963984540054

/**
 * 95 % interval of a share of which `count` of `total` were seen, both from 0 to 1: score interval without continuity
 * correction, Wilson (1927), J. Am. Stat. Assoc. 22:209–212. `total` is at least 1; holds for no and for all as well.
 */
export function wilsonInterval(
  count: number,
  total: number,
): { readonly low: number; readonly high: number } {
  assert(total >= 1 && count >= 0 && count <= total, `${count} of ${total} is a share`)
  const z2 = normalQuantile975 ** 2
  const share = count / total
  const middle = share + z2 / (2 * total)
  const half = normalQuantile975 * Math.sqrt((share * (1 - share)) / total + z2 / (4 * total ** 2))
  const scale = 1 + z2 / total
  return {
    low: count === 0 ? 0 : (middle - half) / scale,
    high: count === total ? 1 : (middle + half) / scale,
  }
}
