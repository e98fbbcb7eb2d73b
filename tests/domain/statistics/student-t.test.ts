import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { normalQuantile } from '#domain/statistics/normal-quantile.ts'
import { studentQuantile, studentTail } from '#domain/statistics/student-t.ts'

describe('studentQuantile', () => {
  it.each([
    // One and two degrees of freedom have closed forms: tan(π(p − ½)), and (2p − 1)√(2 / (4p(1 − p))) .
    [1, 0.975, Math.tan(Math.PI * 0.475)],
    [1, 0.9995, Math.tan(Math.PI * 0.4995)],
    [2, 0.99, 0.98 * Math.sqrt(2 / (4 * 0.99 * 0.01))],
  ])('%d degrees of freedom at %d', (freedom, probability, expected) => {
    expect(studentQuantile(probability, freedom) / expected).toBeCloseTo(1, 12)
  })

  it('undoes the tail, mirrors about 0 and nears the normal one', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 0.4999, noNaN: true }),
        fc.double({ min: 0.5, max: 400, noNaN: true }),
        (tail, freedom) => {
          const t = studentQuantile(1 - tail, freedom)
          expect(studentQuantile(tail, freedom)).toBeCloseTo(-t, 6 - Math.log10(Math.max(1, t)))
          expect(studentTail(-studentQuantile(tail, freedom), freedom) / tail).toBeCloseTo(1, 9)
        },
      ),
      { seed: 7 },
    )
    expect(studentQuantile(0.975, 1e7)).toBeCloseTo(normalQuantile(0.975), 6)
    expect(studentQuantile(0.5, 3)).toBe(0)
    expect(studentQuantile(1, 3)).toBe(Number.POSITIVE_INFINITY)
  })
})
