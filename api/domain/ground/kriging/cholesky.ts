/**
 * Factors a symmetric matrix (row-major, its lower half read) into L·Lᵀ in place, L in the lower half. Gives the first
 * row whose pivot is not above `leastPivot` (squared), or -1 where the matrix is positive definite.
 */
export function factorise(matrix: Float64Array, size: number, leastPivot: number): number {
  for (let row = 0; row < size; row++) {
    const own = row * size
    for (let column = 0; column < row; column++) {
      const other = column * size
      const sum = (matrix[own + column] as number) - dot(matrix, own, matrix, other, column)
      matrix[own + column] = sum / (matrix[other + column] as number)
    }
    const pivot = (matrix[own + row] as number) - dot(matrix, own, matrix, own, row)
    if (!(pivot > leastPivot)) return row
    matrix[own + row] = Math.sqrt(pivot)
  }
  return -1
}

/** The whole inverse (symmetric, row-major) from the factor. */
export function inverseOf(factor: Float64Array, size: number): Float64Array {
  const lower = inverseOfFactor(factor, size)
  const inverse = new Float64Array(size * size)
  for (let k = 0; k < size; k++)
    for (let row = 0; row <= k; row++) {
      const share = lower[k * size + row] as number
      addScaled(inverse, row * size, lower, k * size, share, row + 1)
    }
  for (let row = 0; row < size; row++)
    for (let column = row + 1; column < size; column++)
      inverse[row * size + column] = inverse[column * size + row] as number
  return inverse
}

function inverseOfFactor(factor: Float64Array, size: number): Float64Array {
  const lower = new Float64Array(size * size)
  for (let row = 0; row < size; row++) {
    const own = row * size
    for (let k = 0; k < row; k++) addScaled(lower, own, lower, k * size, -(factor[own + k] as number), k + 1)
    const pivot = factor[own + row] as number
    for (let column = 0; column < row; column++) lower[own + column] = (lower[own + column] as number) / pivot
    lower[own + row] = 1 / pivot
  }
  return lower
}

/** Solves L·Lᵀ·x = b in place. */
export function solveFactored(factor: Float64Array, size: number, b: Float64Array): void {
  for (let row = 0; row < size; row++)
    b[row] = ((b[row] as number) - dot(factor, row * size, b, 0, row)) / (factor[row * size + row] as number)
  for (let row = size - 1; row >= 0; row--) {
    const solved = (b[row] as number) / (factor[row * size + row] as number)
    b[row] = solved
    addScaled(b, 0, factor, row * size, -solved, row)
  }
}

/** Four sums, so that an addition need not wait for the one before it. */
export function dot(a: Float64Array, from: number, b: Float64Array, other: number, count: number): number {
  let [s0, s1, s2, s3] = [0, 0, 0, 0]
  let k = 0
  for (; k + 3 < count; k += 4) {
    s0 += (a[from + k] as number) * (b[other + k] as number)
    s1 += (a[from + k + 1] as number) * (b[other + k + 1] as number)
    s2 += (a[from + k + 2] as number) * (b[other + k + 2] as number)
    s3 += (a[from + k + 3] as number) * (b[other + k + 3] as number)
  }
  for (; k < count; k++) s0 += (a[from + k] as number) * (b[other + k] as number)
  return s0 + s1 + (s2 + s3)
}

function addScaled(
  to: Float64Array,
  at: number,
  from: Float64Array,
  start: number,
  share: number,
  count: number,
): void {
  for (let k = 0; k < count; k++) to[at + k] = (to[at + k] as number) + share * (from[start + k] as number)
}
