import { describe, expect, test } from 'vitest'
import { findMovement, isBeyondChance } from '#domain/review/movement.ts'
import { oddReadingsRows } from '../../published/odd-readings/rows.ts'
import { randomFrom } from '../statistics/random-values.ts'

const series = (count: number, value: (at: number) => number) =>
  Float64Array.from({ length: count }, (_, at) => value(at))
/** Flow of the Nile 1871–1970 with what R's strucchange makes of it; the source stands in the row. */
const nile = oddReadingsRows.find(({ id }) => id === 'ANO-09') as {
  inputs: { x?: readonly number[] }
  expected: {
    last_index_before_change_1based?: number
    mean_before?: number
    mean_after?: number
    RSS_1?: number
  }
} & (typeof oddReadingsRows)[number]

describe('how a series moved', () => {
  test('the Nile falls at once after 1898, by what strucchange finds', () => {
    const x = nile.inputs.x as readonly number[]
    const {
      last_index_before_change_1based: before = 0,
      mean_before = 0,
      mean_after = 0,
      RSS_1 = 0,
    } = nile.expected
    const found = findMovement(Float64Array.from(x), 0)
    expect(found).toMatchObject({ kind: 'step', beganAtStep: before, steps: x.length })
    expect(found?.size).toBeCloseTo(mean_after - mean_before, 6)
    // Standard error of the same step for independent, Gaussian values, from strucchange's residual sum of squares.
    const independent = Math.sqrt(RSS_1 / (x.length - 2)) * Math.sqrt(1 / before + 1 / (x.length - before))
    expect((found?.standardError ?? 0) / independent).toBeGreaterThan(0.85)
    expect((found?.standardError ?? 0) / independent).toBeLessThan(1.5)
    expect(isBeyondChance(found)).toBe(true)
  })

  test('a ramp begins where it does and has its size, its interval honest where values hang together', () => {
    let within = 0
    for (let seed = 1; seed <= 60; seed++) {
      const { gaussian } = randomFrom(seed)
      let hanging = 0
      const found = findMovement(
        series(80, (at) => {
          hanging = 0.5 * hanging + 0.4 * gaussian()
          return 10 + hanging + 0.2 * Math.max(0, at - 39)
        }),
        0,
      )
      expect(found?.kind).toBe('ramp')
      if (found && Math.abs(found.size - 0.2 * 40) < 4 * found.standardError) within++
    }
    expect(within).toBeGreaterThanOrEqual(57)
  })

  test('noise that hangs together is told as a movement beyond chance in at most one of twenty', () => {
    let told = 0
    for (let seed = 1; seed <= 200; seed++) {
      const { gaussian } = randomFrom(seed)
      let hanging = 0
      const found = findMovement(
        series(60, () => {
          hanging = 0.6 * hanging + gaussian()
          return hanging
        }),
        0,
      )
      if (isBeyondChance(found)) told++
    }
    expect(told).toBeLessThanOrEqual(10)
  })

  test('equal values, also ones that no binary number is, show none; gaps are left out', () => {
    for (const value of [0, 0.1, 1e9 + 0.3, -273.15])
      expect(findMovement(new Float64Array(40).fill(value), 0)).toMatchObject({ kind: 'none', size: 0 })
    const gaps = findMovement(
      series(40, (at) => (at % 3 === 0 ? Number.NaN : at < 20 ? 1 : 5)),
      0.1,
    )
    expect(gaps).toMatchObject({ kind: 'step', beganAtStep: 20, size: 4, steps: 26 })
  })

  test('what lies within the uncertainty of a value is no movement', () => {
    const coarse = series(40, (at) => (at < 20 ? 5 : 5.1))
    expect(isBeyondChance(findMovement(coarse, 0.5))).toBe(false)
    expect(isBeyondChance(findMovement(coarse, 0.01))).toBe(true)
  })

  test('mostly equal values with a few others do not make every change certain', () => {
    const flicker = series(40, (at) => ([3, 9, 21, 33].includes(at) ? 5.1 : 5))
    expect(isBeyondChance(findMovement(flicker, 0))).toBe(false)
  })

  test('seven values are too few, eight are not', () => {
    expect(
      findMovement(
        series(7, (at) => at),
        0,
      ),
    ).toBeNull()
    expect(
      findMovement(
        series(8, (at) => at),
        0,
      ),
    ).not.toBeNull()
    expect(findMovement(new Float64Array(30).fill(Number.NaN), 0)).toBeNull()
  })
})
