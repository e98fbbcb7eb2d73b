import type { SurfaceNodes } from './surface-nodes.ts'

/** Nothing is shown where the standard deviation is above a limit; the edge runs where it is the limit. */
export function hideUncertain(
  { standardDeviations, mask, inwardMetres }: SurfaceNodes,
  greatestDeviation: number,
  extentMetres: number,
): void {
  for (let node = 0; node < mask.length; node++) {
    if (Number.isNaN(inwardMetres[node])) continue
    // By variance, which runs straighter than its root.
    const share = 1 - ((standardDeviations[node] as number) / greatestDeviation) ** 2
    if (mask[node] === 0 && share < 0) mask[node] = 3
    inwardMetres[node] = Math.min(inwardMetres[node] as number, share * extentMetres)
  }
}

/** Lowest and highest value shown; null where no node is. */
export function rangeShown({ values, mask }: SurfaceNodes) {
  let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (let node = 0; node < mask.length; node++)
    if (mask[node] === 0) {
      lowest = Math.min(lowest, values[node] as number)
      highest = Math.max(highest, values[node] as number)
    }
  return lowest <= highest ? { lowest, highest } : null
}
