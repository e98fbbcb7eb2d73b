import type { KrigingPoint, KrigingSystem } from './kriging-system.ts'

/** What the value is expected to be before any reading: a constant not known, a plane not known, or a known mean. */
export type Drift = 'mean' | 'plane' | 'slope-east' | { readonly knownMean: number }

/** From -1 to 1: which side of a barrier that ends inside a place lies on, fading out around its end. */
export type SideOfBarrier = (east: number, north: number) => number

/** How many terms each has, sides of barriers aside. */
export const termsOf = { mean: 1, 'slope-east': 2, plane: 3 }

/** Terms of the drift, coordinates centred and scaled so that none of them outweighs another. */
export function driftOf(
  drift: Drift,
  points: readonly KrigingPoint[],
  sides: readonly SideOfBarrier[],
): KrigingSystem['fillDrift'] {
  const mean = (of: (point: KrigingPoint) => number) =>
    points.reduce((sum, point) => sum + of(point), 0) / points.length
  const [east0, north0] = [mean(({ east }) => east), mean(({ north }) => north)]
  const scale =
    points.reduce(
      (most, { east, north }) => Math.max(most, Math.abs(east - east0), Math.abs(north - north0)),
      0,
    ) || 1
  return (east, north, out, at) => {
    if (typeof drift === 'object') return
    out[at] = 1
    if (drift !== 'mean') out[at + 1] = (east - east0) / scale
    if (drift === 'plane') out[at + 2] = (north - north0) / scale
    sides.forEach((side, index) => {
      out[at + termsOf[drift] + index] = side(east, north)
    })
  }
}

/** Each term of the drift at every point. */
export function driftColumns(
  n: number,
  terms: number,
  points: readonly KrigingPoint[],
  fillDrift: KrigingSystem['fillDrift'],
): readonly Float64Array[] {
  const columns = Array.from({ length: terms }, () => new Float64Array(n))
  const row = new Float64Array(terms)
  points.forEach(({ east, north }, index) => {
    fillDrift(east, north, row, 0)
    columns.forEach((column, term) => {
      column[index] = row[term] as number
    })
  })
  return columns
}
