import { dot, factorise, inverseOf, solveFactored } from './cholesky.ts'
import { driftColumns } from './drift.ts'
import type { KrigingPoint, KrigingSystem } from './kriging-system.ts'

/** With W = C⁻¹F and A = FᵀW: [C⁻¹ − W A⁻¹ Wᵀ, W A⁻¹; A⁻¹ Wᵀ, −A⁻¹]. Null where A is singular. */
export function borderedInverse(
  factor: Float64Array,
  n: number,
  terms: number,
  points: readonly KrigingPoint[],
  fillDrift: KrigingSystem['fillDrift'],
): Float64Array | null {
  const plain = inverseOf(factor, n)
  if (terms === 0) return plain
  const f = driftColumns(n, terms, points, fillDrift)
  const w = f.map((column) => {
    const solved = column.slice()
    solveFactored(factor, n, solved)
    return solved
  })
  const a = new Float64Array(terms * terms)
  for (let i = 0; i < terms; i++)
    for (let j = 0; j < terms; j++)
      a[i * terms + j] = dot(f[i] as Float64Array, 0, w[j] as Float64Array, 0, n)
  if (factorise(a, terms, 1e-10 * (a[0] as number)) >= 0) return null
  const inverseA = inverseOf(a, terms)
  const size = n + terms
  const inverse = new Float64Array(size * size)
  const b = Array.from({ length: terms }, (_, i) => {
    const column = new Float64Array(n)
    for (let j = 0; j < terms; j++)
      for (let row = 0; row < n; row++)
        column[row] = (column[row] as number) + (w[j]?.[row] as number) * (inverseA[i * terms + j] as number)
    return column
  })
  for (let row = 0; row < n; row++) {
    for (let column = 0; column < n; column++) {
      let entry = plain[row * n + column] as number
      for (let j = 0; j < terms; j++) entry -= (w[j]?.[row] as number) * (b[j]?.[column] as number)
      inverse[row * size + column] = entry
    }
    for (let i = 0; i < terms; i++) {
      inverse[row * size + n + i] = b[i]?.[row] as number
      inverse[(n + i) * size + row] = b[i]?.[row] as number
    }
  }
  for (let i = 0; i < terms; i++)
    for (let j = 0; j < terms; j++) inverse[(n + i) * size + n + j] = -(inverseA[i * terms + j] as number)
  return inverse
}
