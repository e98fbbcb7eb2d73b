import { expect, test } from 'vitest'
import type { FrozenRecords } from '#contract/frozen-records.ts'
import type { SensorBarometer } from '#domain/site/tables.ts'
import { recordChanges } from '../../../web/derived/report/record-changes.ts'
import { revisionReasons } from '../../../web/derived/report/revision-reasons.ts'

const row: SensorBarometer = {
  sensor: 'PZ-1A/pore-pressure',
  version: 1,
  validFrom: Date.UTC(2027, 6, 1, 12),
  barometer: 'BA-2/barometric-pressure',
  author: 'A. Reed',
  reason: 'nearer',
}
const records = (sensorBarometers?: readonly SensorBarometer[]): FrozenRecords => ({
  calibrations: [],
  wiring: [],
  minutes: [],
  ...(sensorBarometers ? { sensorBarometers } : {}),
})
const site = {
  facts: { timeZone: 'UTC', levelNames: [] },
  series: [{ id: row.sensor, series: 7 }],
  verdicts: [],
  verdictWithdrawals: [],
  points: [],
  instruments: [],
  triggerLevels: [],
  approvals: [],
} as unknown as Parameters<typeof recordChanges>[1]['site']

test('a revised value is laid on another barometer from its date on, also against a set from before there were dates', () => {
  for (const before of [records(), records([])]) {
    const reason = revisionReasons(
      { site, records: before },
      { site, records: records([row]) },
      row.validFrom,
    )
    const at = (atEpochMs: number) =>
      reason({ series: 7, atEpochMs, before: 1, now: 2 } as unknown as Parameters<typeof reason>[0], {
        receivedAtEpochMs: null,
        qualityBefore: 0,
        qualityNow: 0,
      })
    expect(at(row.validFrom)).toBe('barometer')
    expect(at(row.validFrom - 1)).toBe('untold')
  }
})

test('a report tells of a barometer that was entered since the issue before', () => {
  const period = { fromEpochMs: 0, untilEpochMs: Date.UTC(2028, 0) }
  const told = recordChanges({ site, records: records() }, { site, records: records([row]) }, period)
  expect(told.calibrations).toEqual([
    'PZ-1A/pore-pressure: corrected by the barometer BA-2/barometric-pressure from 1 Jul 2027 12:00. A. Reed: nearer',
  ])
  expect(
    recordChanges({ site, records: records([row]) }, { site, records: records([row]) }, period).calibrations,
  ).toEqual([])
})
