import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { weighCase } from '#domain/review/rank-causes.ts'
import type { Driver, ReviewCase, Trace } from '#domain/review/review-case.ts'
import { shapeInTime } from '#domain/review/rules/shape-in-time.ts'

const hourMs = 3_600_000
const folder = new URL('../../published/odd-readings/', import.meta.url)
/** Constructed channels with exact labels; where they come from stands beside them in `faults.md`. */
const [header = [], ...rows] = readFileSync(new URL('faults.csv', folder), 'utf8')
  .trim()
  .split('\n')
  .map((line) => line.trim().split(','))

function traceOf(channel: string, more: Partial<Trace> = {}): Trace {
  const place = header.indexOf(channel)
  const read = rows.flatMap((row) => {
    const text = row[place] ?? ''
    return text === '' || Number.isNaN(Number(text))
      ? []
      : [{ at: Number(row[0]) * hourMs, value: Number(text) }]
  })
  return {
    series: `${channel}/settlement`,
    point: channel,
    measure: 'settlement',
    unit: 'mm',
    intervalMinutes: 60,
    standardUncertainty: 0.05,
    repeatability: 0.05,
    atEpochMs: read.map(({ at }) => at),
    values: read.map(({ value }) => value),
    ...more,
  }
}

const temperature: Driver = {
  ...traceOf('temp_C', { measure: 'temperature', unit: 'degC', repeatability: 0.2 }),
  kind: 'air-temperature',
}
const besides = [
  { ...traceOf('healthy', { point: 'beside' }), distanceMetres: 1, aboveMetres: 0, sameStratum: true },
]
const caseOf = (channel: string, given: Partial<ReviewCase> = {}): ReviewCase => ({
  fromEpochMs: 0,
  untilEpochMs: 720 * hourMs,
  timeZone: 'UTC',
  networkKnown: true,
  foundBeside: [],
  subject: traceOf(channel),
  outOfUseSinceEpochMs: null,
  lateAfterMinutes: 180,
  resolution: 0.001,
  range: null,
  same: [],
  other: [],
  ofLogger: [],
  drivers: [temperature],
  byHand: [],
  checksums: [],
  airStandsInValues: null,
  logger: null,
  notes: [],
  ...given,
})
const shapes = (channel: string) =>
  shapeInTime
    .weigh(caseOf(channel))
    .filter(({ cause, decibans }) => cause === 'sensor' && decibans > 0)
    .map(({ sentence }) => sentence)

describe('constructed faults', () => {
  test('hold 720 hours of ten channels', () => {
    expect(rows).toHaveLength(720)
    expect(header).toHaveLength(12)
  })

  const named: readonly (readonly [channel: string, sentence: RegExp])[] = [
    // +3.0, −2.5 and +4.0 mm at hours 100, 333 and 555.
    ['outlier', /^3 readings stand off .* by \+(3\.9|4\.[01])\d mm at most, and the next come back/],
    // Up to 6 mm over 6 readings.
    ['spike', /^[456] readings stand off .* by \+[56]\.\d\d mm at most/],
    // Constant from hour 400 to 480.
    ['stuck', /^80 readings in a row are the very same/],
    // Standard deviation from 0.05 to 0.60 mm for 100 hours.
    ['noisy', /^It scattered (7|8|9|1\d)\.\d times as much .* 0\.[3-6]\d\d mm from reading to reading/],
    // Floor at −2.5 mm, 341 clipped readings.
    ['clipped', /^341 readings are exactly the lowest of all, −2\.50 mm/],
    // +1.5 mm at hour 300.
    ['offset', /between two readings 60\.0 min apart/],
  ]
  for (const [channel, sentence] of named.slice(0, 5))
    test(`${channel} is named for what it is, and nothing else`, () => {
      expect(shapes(channel)).toHaveLength(1)
      expect(shapes(channel)[0]).toMatch(sentence)
      // The ground settles in the same stretch: that stays real, the fault is laid on the sensor.
      const { ranked, treatAsReal } = weighCase(caseOf(channel, { same: besides }), 'value')
      expect(ranked.find(({ cause }) => cause === 'sensor')?.evidence[0]?.decibans).toBeGreaterThanOrEqual(10)
      expect(treatAsReal).toBe(true)
    })

  for (const channel of ['healthy', 'thermal'])
    test(`${channel} is not laid on the sensor, alone or beside another`, () => {
      expect(shapes(channel)).toEqual([])
      for (const same of [[], besides]) {
        const { ranked } = weighCase(caseOf(channel, { same }), 'value')
        expect(ranked[0]?.cause).not.toBe('sensor')
      }
    })

  test('the settlement of `healthy` is taken as real; `thermal` is told to follow the temperature', () => {
    expect(weighCase(caseOf('healthy'), 'value')).toMatchObject({ treatAsReal: true })
    const found = weighCase(caseOf('thermal'), 'value').ranked.flatMap(({ evidence }) => evidence)
    expect(found.map(({ sentence }) => sentence).join()).toMatch(
      /follows the air temperature at once .* \+0\.0[56]\d* mm per °C/,
    )
  })

  test.each(['drift', 'offset'])('%s shows against what stands beside it', (channel) => {
    const { ranked } = weighCase(caseOf(channel, { same: besides }), 'value')
    const sentences = ranked.find(({ cause }) => cause === 'sensor')?.evidence.map(({ sentence }) => sentence)
    expect(sentences?.join()).toMatch(/It parted from beside|beside, .* changed the same way and by more/)
  })

  test('drift and offset with nothing beside them are taken as real: nobody could tell', () => {
    for (const channel of ['drift', 'offset'])
      expect(weighCase(caseOf(channel), 'value').treatAsReal).toBe(true)
  })
})
