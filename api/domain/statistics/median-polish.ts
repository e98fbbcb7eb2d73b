import { medianOfSorted } from './spread.ts'

/** Rows and columns of a table told apart. */
export interface MedianPolish {
  readonly overall: number
  readonly rows: readonly number[]
  readonly columns: Float64Array
  /** What is left of each value; NaN where there was none. */
  readonly residuals: readonly Float64Array[]
}

/**
 * Tukey's (1977) median polish of a table of rows alike in length (NaN: no value): value = overall + row + column + residual,
 * by taking off medians of rows and columns in turns until they change by less than a thousandth of the sum of residuals, or
 * twenty times. A row or column without a value has the effect 0.
 */
export function medianPolish(table: readonly Float64Array[]): MedianPolish {
  const width = table[0]?.length ?? 0
  const residuals = table.map((row) => Float64Array.from(row))
  const rows = table.map(() => 0)
  const columns = new Float64Array(width)
  const column = new Float64Array(rows.length)
  let overall = 0
  let before = Number.POSITIVE_INFINITY
  for (let round = 0; round < 20; round++) {
    residuals.forEach((row, i) => {
      const middle = medianOf(row)
      rows[i] = (rows[i] as number) + middle
      for (let j = 0; j < width; j++) row[j] = (row[j] as number) - middle
    })
    const ofColumns = medianOf(columns)
    overall += ofColumns
    for (let j = 0; j < width; j++) columns[j] = (columns[j] as number) - ofColumns
    for (let j = 0; j < width; j++) {
      for (let i = 0; i < rows.length; i++) column[i] = (residuals[i] as Float64Array)[j] as number
      const middle = medianOf(column)
      columns[j] = (columns[j] as number) + middle
      for (const row of residuals) row[j] = (row[j] as number) - middle
    }
    const ofRows = medianOf(rows)
    overall += ofRows
    for (let i = 0; i < rows.length; i++) rows[i] = (rows[i] as number) - ofRows
    const sum = residuals.reduce(
      (all, row) => row.reduce((part, one) => part + (Number.isFinite(one) ? Math.abs(one) : 0), all),
      0,
    )
    if (sum === 0 || Math.abs(sum - before) < 1e-3 * sum) break
    before = sum
  }
  return { overall, rows, columns, residuals }
}

function medianOf(values: ArrayLike<number>): number {
  const there = new Float64Array(values.length)
  let count = 0
  for (let i = 0; i < values.length; i++) if (Number.isFinite(values[i])) there[count++] = values[i] as number
  return count === 0 ? 0 : medianOfSorted(there.subarray(0, count).sort())
}
