import { expect, test } from 'vitest'
import { medianPolish } from '#domain/statistics/median-polish.ts'

test('rows and columns that only add up leave nothing, gaps and one wild row notwithstanding', () => {
  const course = Array.from({ length: 12 }, (_, i) => Math.sin(i))
  const table = [1, 5, -3, 20, 8].map((row) => Float64Array.from(course, (value) => row + value))
  ;(table[2] as Float64Array)[4] = Number.NaN
  const wild = Float64Array.from(course, (value, i) => 7 + value + 30 * i)
  const { overall, rows, columns, residuals } = medianPolish([...table, wild])
  residuals.slice(0, 5).forEach((row, i) => {
    row.forEach((left, j) => {
      if (i === 2 && j === 4) expect(left).toBeNaN()
      else expect(Math.abs(left)).toBeLessThan(1e-9)
    })
  })
  expect(overall + (rows[3] as number) + (columns[6] as number)).toBeCloseTo(20 + Math.sin(6), 9)
})
