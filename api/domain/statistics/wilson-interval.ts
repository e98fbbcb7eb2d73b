import { normalQuantile } from './normal-quantile.ts'

/**
 * Wilson score interval of a share, such as that of packets received of those sent, recommended for small numbers by
 * Brown, Cai & DasGupta (2001), Statistical Science 16:101–133. `confidence` between 0 and 1, for example 0.95. Of none
 * at all: 0 to 1.
 */
export function wilsonInterval(
  count: number,
  total: number,
  confidence = 0.95,
): { readonly low: number; readonly high: number } {
  if (total <= 0) return { low: 0, high: 1 }
  const z = normalQuantile(0.5 + confidence / 2)
  const share = count / total
  const weight = 1 + (z * z) / total
  const middle = (share + (z * z) / (2 * total)) / weight
  const half = (z / weight) * Math.sqrt((share * (1 - share)) / total + (z * z) / (4 * total * total))
  return {
    low: count === 0 ? 0 : Math.max(0, middle - half),
    high: count === total ? 1 : Math.min(1, middle + half),
  }
}
