import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { CalibrationStep, Companions } from '#domain/reduction/chain.ts'
import { chainCoefficients, chainShape, chainSql } from '#domain/reduction/chain-sql.ts'
import { quality } from '#domain/reduction/quality.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'
import { runChain } from '#domain/reduction/run-chain.ts'
import { steps as stepsByKind } from '#domain/reduction/steps.ts'
import { anyCompanions, anyRaw, wellJoinedChains } from './arbitrary-chains.ts'
import { openBrowserRows } from './duckdb-browser-rows.ts'
import { literal, openRows } from './duckdb-rows.ts'

let database: Awaited<ReturnType<typeof openRows>>
let browserDatabase: Awaited<ReturnType<typeof openBrowserRows>>
beforeAll(async () => {
  database = await openRows()
  browserDatabase = await openBrowserRows()
})
afterAll(() => {
  database.close()
  browserDatabase.close()
})

interface Reading {
  readonly raw: number | null
  readonly companions: Companions
}

function reductionQuery(steps: readonly CalibrationStep[], readings: readonly Reading[]): string {
  const coefficients = chainCoefficients(steps)
  const reading = readings
    .map(({ raw, companions }, row) =>
      [row, literal(raw), literal(companions.temperatureDegC), literal(companions.barometerKpa)].join(','),
    )
    .map((row) => `(${row})`)
    .join(',')
  const calibration = `select ${['1 as one', ...coefficients.map((value, index) => `${literal(value)} as c${index}`)].join(', ')}`
  const { value, quality: bits } = chainSql(steps, {
    raw: 'r.raw',
    coefficient: (index) => `k.c${index}`,
    temperatureDegC: 'r.t',
    barometerKpa: 'r.b',
  })
  return `select ${value} as value, ${bits} as quality from (values ${reading}) r(n, raw, t, b), (${calibration}) k order by n`
}

/** How far two libraries' logarithm and sine may take a chain apart: a few units in the last place, carried on. */
function libraryDifference({ raw, companions }: Reading, steps: readonly CalibrationStep[]): number {
  let carried = 0
  for (const { step, x, y, skipped } of runChain(raw, steps, companions).lines) {
    const { derivative } = stepsByKind[step.kind]
    carried *= skipped ? 1 : Math.abs(derivative(x, step.parameters, companions))
    if (step.kind === 'steinhart-hart' || step.kind === 'beta')
      carried += 4e-16 * (Math.abs(y ?? 0) + 273.15) * 4
    if (['gauge-length-sine', 'sine-to-tilt', 'tilt-to-sine'].includes(step.kind))
      carried += 4e-16 * Math.abs(y ?? 0)
    // Powers of the air pressure, of which the change is the small difference.
    if (step.kind === 'barometric') carried += 4e-16 * 105
  }
  return carried
}

/** Bit for bit, but for chains with a logarithm or a sine: those within 1e-12 or what the libraries differ by. */
function agrees(
  value: number | null,
  expected: number | null,
  steps: readonly CalibrationStep[],
  reading: Reading,
): boolean {
  if (value === null || expected === null) return value === expected
  const allowed = steps.some(isTranscendental)
    ? Math.max(1e-12 * Math.abs(expected), libraryDifference(reading, steps))
    : 0
  return Math.abs(value - expected) <= allowed
}

const isTranscendental = ({ kind, parameters }: CalibrationStep) =>
  (kind === 'barometric' && (parameters.riseMetres ?? 0) !== 0) ||
  ['steinhart-hart', 'beta', 'gauge-length-sine', 'sine-to-tilt', 'tilt-to-sine'].includes(kind)

describe('chainSql', () => {
  test.each([
    { engine: 'the server', rowsOf: (sql: string) => database.rows(sql), numRuns: 150 },
    { engine: 'the browser', rowsOf: (sql: string) => browserDatabase.rows(sql), numRuns: 60 },
  ])(
    'gives what reduceValue gives in the DuckDB of $engine, for any chain, reading and companions',
    async ({ rowsOf, numRuns }) => {
      let compared = 0
      const kinds = new Set<string>()
      await fc.assert(
        fc.asyncProperty(
          wellJoinedChains,
          fc.array(fc.record({ raw: anyRaw, companions: anyCompanions }), { minLength: 30, maxLength: 30 }),
          async (steps, readings) => {
            const rows = await rowsOf(reductionQuery(steps, readings))
            readings.forEach((reading, index) => {
              const expected = reduceValue(reading.raw, steps, reading.companions)
              const { value = null, quality: bits } = rows[index] ?? {}
              if (!agrees(value, expected.value, steps, reading) || bits !== expected.quality)
                throw new Error(JSON.stringify({ steps, reading, sql: { value, bits }, expected }))
              if (value === null) return
              compared += 1
              for (const { kind } of steps) kinds.add(kind)
            })
          },
        ),
        { seed: 20270301, numRuns },
      )
      expect(compared).toBeGreaterThan(numRuns * 12)
      expect([...kinds].sort()).toEqual(Object.keys(stepsByKind).sort())
    },
  )

  test('reduces all channels of one shape in one query, each with its own coefficients', async () => {
    const chainOf = (c0: number, c1: number): readonly CalibrationStep[] => [
      { kind: 'period-to-frequency', parameters: {} },
      { kind: 'frequency-squared', parameters: {} },
      { kind: 'polynomial', parameters: { c0, c1, c2: -1e-7, unit: 'kPa' } },
      { kind: 'thermal', parameters: { factor: -0.045, reference: 12 } },
      { kind: 'barometric', parameters: { reference: 101.3, maximumAgeMinutes: 120 } },
    ]
    const chains = [chainOf(1400, -0.158), chainOf(1380, -0.16)]
    const [first = [], second = []] = chains
    expect(chainShape(first)).toBe(chainShape(second))
    const table = chains
      .map((steps, channel) => `(${[channel, ...chainCoefficients(steps).map(literal)].join(',')})`)
      .join(',')
    const columns = chainCoefficients(first).map((_, index) => `c${index}`)
    const { value, fault, qualityOf } = chainSql(first, {
      raw: 'r.raw',
      coefficient: (index) => `k.c${index}`,
      temperatureDegC: '9.5e0',
      barometerKpa: '99.1e0',
    })
    const rows = await database.rows(
      `select channel, value, ${qualityOf('value', 'fault')} as quality from (
         select k.channel, ${value} as value, ${fault} as fault from (values (0, 337.1e0), (1, 337.1e0)) r(channel, raw)
         join (values ${table}) k(channel, ${columns.join(',')}) using (channel)) order by channel`,
    )
    const companions = { temperatureDegC: 9.5, barometerKpa: 99.1 }
    expect(rows).toEqual(
      chains.map((steps, channel) => {
        const reduced = reduceValue(337.1, steps, companions)
        return { channel, value: reduced.value, quality: reduced.quality }
      }),
    )
    expect(rows[0]?.value).not.toBe(rows[1]?.value)
  })

  test('tells shapes apart by kinds, order and texts, not by numbers', () => {
    const zero = (value: number): CalibrationStep => ({ kind: 'zero', parameters: { value } })
    const line = (unit: string): CalibrationStep => ({
      kind: 'linear',
      parameters: { factor: 1, offset: 0, unit },
    })
    expect(chainShape([zero(1), line('mm')])).toBe(chainShape([zero(2), line('mm')]))
    expect(chainShape([zero(1), line('mm')])).not.toBe(chainShape([line('mm'), zero(1)]))
    expect(chainShape([line('mm')])).not.toBe(chainShape([line('deg')]))
  })

  test('stays short for long chains of curves', () => {
    const curve: CalibrationStep = { kind: 'polynomial', parameters: { c0: 0, c1: 1, c2: 1, unit: 'mm' } }
    const { value } = chainSql(
      Array.from({ length: 20 }, () => curve),
      {
        raw: 'raw',
        coefficient: (index) => `c${index}`,
        temperatureDegC: 't',
        barometerKpa: 'b',
      },
    )
    expect(value.length).toBeLessThan(30_000)
  })

  test('a missing barometer leaves no value, a missing temperature leaves its term out', async () => {
    const steps: readonly CalibrationStep[] = [
      { kind: 'linear', parameters: { factor: 2, offset: 0, unit: 'kPa' } },
      { kind: 'thermal', parameters: { factor: 10, reference: 0 } },
      { kind: 'barometric', parameters: { reference: 100, maximumAgeMinutes: 60 } },
    ]
    const rows = await database.rows(
      reductionQuery(steps, [
        { raw: 5, companions: { temperatureDegC: 1, barometerKpa: 101 } },
        { raw: 5, companions: { temperatureDegC: null, barometerKpa: 101 } },
        { raw: 5, companions: { temperatureDegC: 1, barometerKpa: null } },
        { raw: 5, companions: { temperatureDegC: null, barometerKpa: null } },
      ]),
    )
    expect(rows).toEqual([
      { value: 19, quality: 0 },
      { value: 9, quality: quality.temperatureMissing },
      { value: null, quality: quality.barometerMissing },
      { value: null, quality: quality.barometerMissing + quality.temperatureMissing },
    ])
  })
})
