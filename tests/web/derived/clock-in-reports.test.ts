import { expect, test } from 'vitest'
import type { FrozenRecords } from '#contract/frozen-records.ts'
import type { LoggerClock } from '#domain/site/tables.ts'
import { recordChanges } from '../../../web/derived/report/record-changes.ts'
import { revisionReasons } from '../../../web/derived/report/revision-reasons.ts'
import { clockSentences } from '../../../web/panels/clock-sentences.ts'

const minuteMs = 60_000
const row: LoggerClock = {
  logger: 'LG-1',
  version: 1,
  validFrom: Date.UTC(2027, 6, 1, 12),
  addedSeconds: -2700,
  addedSecondsPerDay: 0,
  author: 'A. Reed',
  reason: 'held against the time signal',
}
const [moved, other] = ['PZ-1A/pore-pressure', 'PZ-2A/pore-pressure']
const wire = (logger: string, sensor: string) => ({
  logger,
  channel: '1',
  sensor,
  fromAt: 0,
  untilAt: null,
  reason: null,
})
const records = (loggerClocks?: readonly LoggerClock[]): FrozenRecords => ({
  calibrations: [],
  wiring: [wire('LG-1', moved), wire('LG-2', other)],
  minutes: [],
  ...(loggerClocks ? { loggerClocks } : {}),
})
const site = {
  facts: { timeZone: 'UTC', levelNames: [] },
  series: [
    { id: moved, series: 7 },
    { id: other, series: 8 },
  ],
  verdicts: [],
  verdictWithdrawals: [],
  points: [],
  instruments: [],
  triggerLevels: [],
  approvals: [],
} as unknown as Parameters<typeof recordChanges>[1]['site']

test('values of what a logger reads are laid on its clock, from the first instant that it moved on', () => {
  for (const [before, now] of [
    [records(), records([row])],
    [records([row]), records()],
    [records([{ ...row, addedSeconds: -2699.5 }]), records([row])],
    [records([row]), records([row, { ...row, version: 2, addedSeconds: 0 }])],
  ] as const) {
    const reason = revisionReasons({ site, records: before }, { site, records: now }, row.validFrom)
    const at = (series: number, atEpochMs: number) =>
      reason({ series, atEpochMs, before: 1, now: null } as unknown as Parameters<typeof reason>[0], {
        receivedAtEpochMs: null,
        qualityBefore: 0,
        qualityNow: 0,
      })
    expect(at(7, row.validFrom)).toBe('clock')
    expect(at(7, row.validFrom - 45 * minuteMs)).toBe('clock')
    expect(at(7, row.validFrom - 46 * minuteMs)).toBe('untold')
    expect(at(8, row.validFrom)).toBe('untold')
  }
})

test('a report and the calibrations of a sensor tell of a clock that was put right', () => {
  const period = { fromEpochMs: 0, untilEpochMs: Date.UTC(2028, 0) }
  const told = (before: FrozenRecords, now: FrozenRecords) =>
    recordChanges({ site, records: before }, { site, records: now }, period).calibrations
  expect(told(records(), records([row]))).toEqual([
    'LG-1: 2700 s are taken off stamps from the stamp 1 Jul 2027 12:00 on. A. Reed: held against the time signal',
  ])
  expect(told(records([row]), records([row]))).toEqual([])
  const [drifting, back] = clockSentences(
    {
      clocks: [
        { ...row, addedSeconds: 5, addedSecondsPerDay: -1.5 },
        { ...row, version: 2, addedSeconds: 0 },
      ],
    },
    'UTC',
  )
  expect(drifting).toMatch(
    /^Clock of LG-1: from the stamp .*1 Jul.* on 5 s are added to stamps, and 1\.5 s taken off for each day after\. A\. Reed: held/,
  )
  expect(back).toContain('on stamps stand as sent. A. Reed')
  expect(clockSentences({}, 'UTC')).toEqual([])
})
