import { expect } from 'vitest'

/** Compares numbers, lists and mappings of numbers, each within its own absolute tolerance. */
export function expectWithin(actual: unknown, expected: unknown, tolerance: unknown, at = 'value'): void {
  if (Array.isArray(expected)) {
    expect(Array.isArray(actual) ? actual.length : actual, at).toBe(expected.length)
    for (const [place, one] of expected.entries())
      expectWithin(
        (actual as unknown[])[place],
        one,
        Array.isArray(tolerance) ? tolerance[place] : tolerance,
        `${at}[${place}]`,
      )
    return
  }
  if (typeof expected === 'object' && expected !== null) {
    for (const [name, one] of Object.entries(expected)) {
      const own =
        typeof tolerance === 'object' && tolerance !== null
          ? (tolerance as Record<string, unknown>)[name]
          : tolerance
      expectWithin((actual as Record<string, unknown>)[name], one, own, `${at}.${name}`)
    }
    return
  }
  expect(typeof actual, at).toBe('number')
  expect(
    Math.abs((actual as number) - (expected as number)),
    `${at}: ${actual} for ${expected}`,
  ).toBeLessThanOrEqual((tolerance as number) + Math.abs(expected as number) * 1e-15)
}
