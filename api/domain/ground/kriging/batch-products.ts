/**
 * Of each of `count` vectors (rows of `vectors`, `size` long) its product with a symmetric matrix, into rows of `out`.
 * Four rows of the matrix by four vectors at a time, so that each number loaded is used four times.
 */
export function multiplyBatch(
  matrix: Float64Array,
  size: number,
  vectors: Float64Array,
  count: number,
  out: Float64Array,
): void {
  for (let i = 0; i < size; i += 4)
    for (let c = 0; c < count; c += 4) {
      const i1 = Math.min(i + 1, size - 1)
      const i2 = Math.min(i + 2, size - 1)
      const i3 = Math.min(i + 3, size - 1)
      const c1 = Math.min(c + 1, count - 1)
      const c2 = Math.min(c + 2, count - 1)
      const c3 = Math.min(c + 3, count - 1)
      tile(
        matrix,
        i * size,
        i1 * size,
        i2 * size,
        i3 * size,
        vectors,
        c * size,
        c1 * size,
        c2 * size,
        c3 * size,
        size,
      )
      for (const [place, vector] of [c, c1, c2, c3].entries()) {
        out[vector * size + i] = sums[place] as number
        out[vector * size + i1] = sums[4 + place] as number
        out[vector * size + i2] = sums[8 + place] as number
        out[vector * size + i3] = sums[12 + place] as number
      }
    }
}

/** Of each of `count` vectors x the value of xᵀ·S·x, S symmetric, by its lower half alone. */
export function quadraticForms(
  matrix: Float64Array,
  size: number,
  vectors: Float64Array,
  count: number,
  out: Float64Array,
): void {
  for (let c = 0; c < count; c += 4) {
    const columns = [c, Math.min(c + 1, count - 1), Math.min(c + 2, count - 1), Math.min(c + 3, count - 1)]
    const [v0, v1, v2, v3] = columns.map((column) => column * size) as [number, number, number, number]
    const totals = [0, 0, 0, 0]
    let i = 0
    for (; i + 3 < size; i += 4) {
      const own = i * size
      tile(matrix, own, own + size, own + 2 * size, own + 3 * size, vectors, v0, v1, v2, v3, i)
      for (let place = 0; place < 4; place++) {
        const vector = (columns[place] as number) * size + i
        let total = totals[place] as number
        for (let row = 0; row < 4; row++) {
          const at = own + row * size + i
          let sum =
            2 * (sums[4 * row + place] as number) +
            (matrix[at + row] as number) * (vectors[vector + row] as number)
          for (let k = 0; k < row; k++)
            sum += 2 * (matrix[at + k] as number) * (vectors[vector + k] as number)
          total += sum * (vectors[vector + row] as number)
        }
        totals[place] = total
      }
    }
    for (; i < size; i++)
      for (let place = 0; place < 4; place++) {
        const vector = (columns[place] as number) * size
        let sum = (matrix[i * size + i] as number) * (vectors[vector + i] as number)
        for (let k = 0; k < i; k++)
          sum += 2 * (matrix[i * size + k] as number) * (vectors[vector + k] as number)
        totals[place] = (totals[place] as number) + sum * (vectors[vector + i] as number)
      }
    for (let place = 0; place < 4; place++) out[columns[place] as number] = totals[place] as number
  }
}

/** Products of four rows with four vectors, row by row. */
const sums = new Float64Array(16)

function tile(
  a: Float64Array,
  a0: number,
  a1: number,
  a2: number,
  a3: number,
  b: Float64Array,
  b0: number,
  b1: number,
  b2: number,
  b3: number,
  count: number,
): void {
  let [s00, s01, s02, s03] = [0, 0, 0, 0]
  let [s10, s11, s12, s13] = [0, 0, 0, 0]
  let [s20, s21, s22, s23] = [0, 0, 0, 0]
  let [s30, s31, s32, s33] = [0, 0, 0, 0]
  for (let k = 0; k < count; k++) {
    const x0 = b[b0 + k] as number
    const x1 = b[b1 + k] as number
    const x2 = b[b2 + k] as number
    const x3 = b[b3 + k] as number
    const y0 = a[a0 + k] as number
    s00 += y0 * x0
    s01 += y0 * x1
    s02 += y0 * x2
    s03 += y0 * x3
    const y1 = a[a1 + k] as number
    s10 += y1 * x0
    s11 += y1 * x1
    s12 += y1 * x2
    s13 += y1 * x3
    const y2 = a[a2 + k] as number
    s20 += y2 * x0
    s21 += y2 * x1
    s22 += y2 * x2
    s23 += y2 * x3
    const y3 = a[a3 + k] as number
    s30 += y3 * x0
    s31 += y3 * x1
    s32 += y3 * x2
    s33 += y3 * x3
  }
  sums[0] = s00
  sums[1] = s01
  sums[2] = s02
  sums[3] = s03
  sums[4] = s10
  sums[5] = s11
  sums[6] = s12
  sums[7] = s13
  sums[8] = s20
  sums[9] = s21
  sums[10] = s22
  sums[11] = s23
  sums[12] = s30
  sums[13] = s31
  sums[14] = s32
  sums[15] = s33
}
