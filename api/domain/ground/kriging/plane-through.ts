import { factorise, solveFactored } from './cholesky.ts'
import type { PlacedValue } from './empirical-variogram.ts'

/** The plane of least squares through values; coordinates are best near nought. Level where they lie on one line. */
export function planeThrough(
  places: readonly PlacedValue[],
): (place: { readonly east: number; readonly north: number }) => number {
  const scale = places.reduce(
    (most, { east, north }) => Math.max(most, Math.abs(east), Math.abs(north)),
    1e-9,
  )
  const normal = new Float64Array(9)
  const right = new Float64Array(3)
  for (const { east, north, value } of places) {
    const terms = [1, east / scale, north / scale]
    terms.forEach((one, row) => {
      right[row] = (right[row] as number) + one * value
      terms.forEach((other, column) => {
        normal[3 * row + column] = (normal[3 * row + column] as number) + one * other
      })
    })
  }
  if (factorise(normal, 3, 1e-12 * places.length) >= 0) {
    const mean = (right[0] as number) / places.length
    return () => mean
  }
  solveFactored(normal, 3, right)
  const [level, eastward, northward] = right as unknown as [number, number, number]
  return ({ east, north }) => level + (eastward * east + northward * north) / scale
}
