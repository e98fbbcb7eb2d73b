import type { BlockCorners } from './block-corners.ts'
import { dot } from './cholesky.ts'
import type { Shares } from './cubic-shares.ts'
import type { KrigingSystem } from './kriging-system.ts'

/** What the variances of a block are made of: near points exactly, and the far ones at the 16 corners around it. */
export interface VarianceParts {
  readonly near: number
  /** The inverse's part of the near points. */
  readonly nearInverse: Float64Array
  /** 16 corners by near points. */
  readonly seen: Float64Array
  /** 16 corners by 16. */
  readonly forms: Float64Array
}

/** For the 16 corners around a block: what the near points (the first of `order`) see of the far ones, and the far ones of each other. */
export function variancePartsOf(
  { size, inverse }: KrigingSystem,
  { right, solved, around, productOf }: BlockCorners,
  index: number,
  order: Int32Array,
  near: number,
): VarianceParts {
  const nearInverse = new Float64Array(near * near)
  for (let i = 0; i < near; i++)
    for (let j = 0; j < near; j++)
      nearInverse[i * near + j] = inverse[(order[i] as number) * size + (order[j] as number)] as number
  const own = new Float64Array(16 * near)
  const seen = new Float64Array(16 * near)
  const sum = new Float64Array(16 * near)
  const forms = new Float64Array(256)
  for (let c = 0; c < 16; c++) {
    const corner = around(index, c)
    for (let i = 0; i < near; i++) own[c * near + i] = right[corner * size + (order[i] as number)] as number
    for (let i = 0; i < near; i++) {
      const inner = dot(nearInverse, i * near, own, c * near, near)
      const all = solved[corner * size + (order[i] as number)] as number
      seen[c * near + i] = all - inner
      sum[c * near + i] = all
    }
  }
  for (let c = 0; c < 16; c++)
    for (let d = 0; d <= c; d++) {
      const form =
        productOf(around(index, c), around(index, d)) -
        dot(own, c * near, sum, d * near, near) -
        dot(seen, c * near, own, d * near, near)
      forms[c * 16 + d] = form
      forms[d * 16 + c] = form
    }
  return { near, nearInverse, seen, forms }
}

/** The 4 × 4 corners drawn together to four along a row. */
export function combineRow(
  { near, seen, forms }: VarianceParts,
  y: Shares,
  atCorners: Float64Array,
  rowForm: Float64Array,
): void {
  const width = 4 * near
  for (let at = 0; at < width; at++)
    atCorners[at] =
      y[0] * (seen[at] as number) +
      y[1] * (seen[width + at] as number) +
      y[2] * (seen[2 * width + at] as number) +
      y[3] * (seen[3 * width + at] as number)
  for (let x = 0; x < 4; x++)
    for (let z = 0; z < 4; z++) {
      let sum = 0
      for (let one = 0; one < 4; one++)
        for (let other = 0; other < 4; other++)
          sum +=
            (y[one] as number) * (y[other] as number) * (forms[(4 * one + x) * 16 + 4 * other + z] as number)
      rowForm[4 * x + z] = sum
    }
}

/** k·(A·k + 2·far), k the near covariances. */
export function nearForm(
  inverse: Float64Array,
  near: number,
  atCorners: Float64Array,
  x: Shares,
  k: Float64Array,
): number {
  const [x0, x1, x2, x3] = x
  let form = 0
  for (let i = 0; i < near; i++) {
    const row = i * near
    let sum = 0
    for (let j = 0; j < i; j++) sum += (inverse[row + j] as number) * (k[j] as number)
    const far =
      x0 * (atCorners[i] as number) +
      x1 * (atCorners[near + i] as number) +
      x2 * (atCorners[2 * near + i] as number) +
      x3 * (atCorners[3 * near + i] as number)
    const own = k[i] as number
    form += own * (2 * (sum + far) + (inverse[row + i] as number) * own)
  }
  return form
}

/** Of the far points with each other, read along a row that `combineRow` drew together. */
export function farForm(form: Float64Array, x: Shares): number {
  let sum = 0
  for (let i = 0; i < 4; i++) {
    const row = 4 * i
    sum +=
      (x[i] as number) *
      (x[0] * (form[row] as number) +
        x[1] * (form[row + 1] as number) +
        x[2] * (form[row + 2] as number) +
        x[3] * (form[row + 3] as number))
  }
  return sum
}
