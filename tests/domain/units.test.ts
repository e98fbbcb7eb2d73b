import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { convert, findUnit, isSameUnit, unitSymbol, units } from '#domain/units.ts'

const value = (amount: number, from: string, to: string): number => {
  const outcome = convert(amount, from, to)
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  return outcome.value
}

describe('convert', () => {
  test.each([
    // First principles: definitions of the SI prefixes and of UCUM.
    [1234, 'mm', 'm', 1.234],
    [0.1, 'm', 'mm', 100],
    [1013.25, 'hPa', 'kPa', 101.325],
    [1013.25, 'mbar', 'kPa', 101.325],
    [10, 'm[H2O]', 'kPa', 98.0665],
    [180, 'deg', 'rad', Math.PI],
    [100, 'gon', 'deg', 90],
    [0, 'Cel', 'K', 273.15],
    [100, 'Cel', '[degF]', 212],
    [-40, '[degF]', 'Cel', -40],
    [3, 'kOhm', 'Ohm', 3000],
    [6121, 'MN', 'kN', 6_121_000],
    [7912.3, '10*3.Hz2', 'kHz2', 7.9123],
    [15, '%', '1', 0.15],
    [500, 'us', 's', 0.0005],
    [250, 'um/m', 'mm/m', 0.25],
  ])('%d %s is %s %d', (amount, from, to, expected) => {
    expect(value(amount, from, to)).toBeCloseTo(expected, 10)
  })

  test('decimal factors give the decimal, to the last place', () => {
    expect(value(1234, 'mm', 'm')).toBe(1.234)
    expect(value(1013.25, 'mbar', 'kPa')).toBe(101.325)
    expect(value(-0.7, 'm', 'mm')).toBe(-700)
  })

  test('there and back is the same, for every pair of one dimension', () => {
    for (const from of units)
      for (const to of units.filter(({ dimension }) => dimension === from.dimension))
        fc.assert(
          fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (amount) => {
            const there = value(amount, from.code, to.code)
            const scale = Math.max(Math.abs(amount), 1000)
            expect(Math.abs(value(there, to.code, from.code) - amount)).toBeLessThanOrEqual(1e-12 * scale)
          }),
          { seed: 5, numRuns: 5 },
        )
  })

  test('kPa and mm do not convert, and the reason names both', () => {
    const outcome = convert(1, 'kPa', 'mm')
    expect(outcome).toMatchObject({
      ok: false,
      issues: [{ code: 'units-of-different-kinds', value: 'kPa to mm' }],
    })
    if (!outcome.ok) expect(outcome.issues[0]?.message).toContain('pressure')
  })

  test('units of different kinds refuse to mix: every pair, both ways', () => {
    let pairs = 0
    for (const from of units)
      for (const to of units.filter(({ dimension }) => dimension !== from.dimension)) {
        const outcome = convert(1, from.code, to.code)
        expect(outcome.ok, `${from.code} to ${to.code}`).toBe(false)
        if (outcome.ok) continue
        expect(outcome.issues.map(({ code }) => code)).toEqual(['units-of-different-kinds'])
        expect(outcome.issues[0]?.value).toBe(`${from.code} to ${to.code}`)
        pairs += 1
      }
    expect(pairs).toBeGreaterThan(4000)
  })

  test('an unknown unit is refused by name, on either side', () => {
    expect(convert(1, 'furlong', 'm')).toMatchObject({
      ok: false,
      issues: [{ code: 'unit-unknown', value: 'furlong' }],
    })
    expect(convert(1, 'm', 'KPA')).toMatchObject({
      ok: false,
      issues: [{ code: 'unit-unknown', value: 'KPA' }],
    })
  })
})

test('no code or spelling is two units', () => {
  const names = units.flatMap(({ code, aliases }) => [code, ...aliases])
  expect(new Set(names).size).toBe(names.length)
})

test('spellings of site tables are the same unit as their UCUM code', () => {
  expect(isSameUnit('degC', 'Cel')).toBe(true)
  expect(isSameUnit('ohm', 'Ohm')).toBe(true)
  expect(isSameUnit('m', 'mm')).toBe(false)
  expect(isSameUnit('furlong', 'furlong')).toBe(true)
  expect(findUnit('count')?.code).toBe('{count}')
  expect(unitSymbol('degC')).toBe('°C')
  expect(unitSymbol('furlong')).toBe('furlong')
})
