import { expect, test } from 'vitest'
import { barometerAt, barometersOf, everyBarometer } from '#domain/reduction/barometer-in-force.ts'
import type { SensorBarometer } from '#domain/site/tables.ts'

const sensor = { id: 'PZ-1A/pore-pressure', barometerSensor: 'BA-1' }
const record = (version: number, validFrom: number, barometer: string): SensorBarometer => ({
  sensor: sensor.id,
  version,
  validFrom,
  barometer,
  author: 'A. Reed',
  reason: 'nearer',
})
const heldBy = (records: readonly SensorBarometer[], named: string | null = 'BA-1') =>
  barometersOf(records)({ ...sensor, barometerSensor: named }).map((one) => [one.barometer, one.fromEpochMs])

test('without records the barometer named with the sensor holds at all times, and none where none is named', () => {
  expect(heldBy([])).toEqual([['BA-1', Number.NEGATIVE_INFINITY]])
  expect(heldBy([], null)).toEqual([[null, Number.NEGATIVE_INFINITY]])
})

test('a record holds from its instant on until the next, in whatever order they stand', () => {
  const records = [record(2, 2000, 'BA-3'), record(1, 1000, 'BA-2')]
  const periods = barometersOf(records)(sensor)
  expect(
    periods.map(({ barometer, fromEpochMs, untilEpochMs }) => [barometer, fromEpochMs, untilEpochMs]),
  ).toEqual([
    ['BA-1', Number.NEGATIVE_INFINITY, 1000],
    ['BA-2', 1000, 2000],
    ['BA-3', 2000, Number.POSITIVE_INFINITY],
  ])
  expect([999, 1000, 1999, 2000].map((at) => barometerAt(periods, at).barometer)).toEqual([
    'BA-1',
    'BA-2',
    'BA-2',
    'BA-3',
  ])
  expect(everyBarometer(periods)).toEqual(['BA-1', 'BA-2', 'BA-3'])
})

test('of records that begin together the highest version holds', () => {
  expect(heldBy([record(1, 1000, 'BA-2'), record(2, 1000, 'BA-3')]).slice(1)).toEqual([['BA-3', 1000]])
  expect(heldBy([record(2, 1000, 'BA-2'), record(1, 1000, 'BA-3')]).slice(1)).toEqual([['BA-2', 1000]])
})

test('a later version that names an earlier instant does not put out a record that begins after it', () => {
  expect(heldBy([record(1, 2000, 'BA-2'), record(2, 1000, 'BA-3')]).slice(1)).toEqual([
    ['BA-3', 1000],
    ['BA-2', 2000],
  ])
})

test('a record that names what holds already changes nothing, nor do records of other sensors', () => {
  expect(
    heldBy([record(1, 1000, 'BA-1'), { ...record(1, 500, 'BA-9'), sensor: 'PZ-2/pore-pressure' }]),
  ).toEqual([['BA-1', Number.NEGATIVE_INFINITY]])
})
