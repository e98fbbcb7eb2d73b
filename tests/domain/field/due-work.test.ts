import { expect, test } from 'vitest'
import { dueWork, type SensorToVisit } from '#domain/field/due-work.ts'

const day = 86_400_000
const dip: SensorToVisit = {
  id: 'WS-01/water-level',
  instrument: 'WS-01',
  byHand: true,
  critical: false,
  intervalMinutes: 7 * 24 * 60,
  lastAtEpochMs: 0,
  late: false,
  withoutValue: false,
  level: null,
  logger: 'DIPPING',
  certificateDueAtEpochMs: null,
}
const gauge: SensorToVisit = {
  ...dip,
  id: 'ST-05A/force',
  instrument: 'ST-05',
  byHand: false,
  intervalMinutes: 15,
}

test('a reading by hand is due an interval after the last, and cannot wait another', () => {
  expect(dueWork([dip], 5 * day, 6 * day)).toEqual([])
  expect(dueWork([dip], 6 * day, 7 * day)).toMatchObject([
    { kind: 'read-by-hand', urgency: 1, dueAtEpochMs: 7 * day },
  ])
  expect(dueWork([dip], 14 * day, 15 * day)).toMatchObject([{ urgency: 0 }])
  expect(dueWork([{ ...dip, lastAtEpochMs: null }], 0, 0)).toMatchObject([{ urgency: 0, dueAtEpochMs: null }])
})

test('silence of what is critical goes before other silence; a hand reading that is late is due, not silent', () => {
  expect(dueWork([{ ...gauge, late: true }], day, day)).toMatchObject([{ kind: 'silent', urgency: 1 }])
  expect(dueWork([{ ...gauge, late: true, critical: true }], day, day)).toMatchObject([
    { kind: 'silent-critical', urgency: 0 },
  ])
  expect(dueWork([{ ...dip, late: true }], 8 * day, 8 * day).map(({ kind }) => kind)).toEqual([
    'read-by-hand',
  ])
})

test('what is critical, read by hand and without current data cannot wait', () => {
  const critical = { ...dip, critical: true, late: true }
  expect(dueWork([critical], 7.5 * day, 7.5 * day)).toMatchObject([
    { kind: 'read-by-hand', urgency: 0, criticalWithoutData: true },
  ])
  // Late by its own limit before a reading is due.
  expect(dueWork([critical], 5 * day, 5 * day)).toMatchObject([{ kind: 'read-by-hand', urgency: 0 }])
  expect(dueWork([{ ...critical, late: false }], 7.5 * day, 7.5 * day)).toMatchObject([
    { urgency: 1, criticalWithoutData: false },
  ])
  expect(dueWork([{ ...dip, late: true }], 7.5 * day, 7.5 * day)).toMatchObject([
    { urgency: 1, criticalWithoutData: false },
  ])
})

test('sensors of one instrument are one errand of a kind, as urgent as the most urgent', () => {
  const errands = dueWork(
    [
      { ...gauge, late: true, lastAtEpochMs: 5 },
      { ...gauge, id: 'ST-05B/force', late: true, lastAtEpochMs: 3, level: 1 },
      { ...gauge, id: 'ST-05C/force', certificateDueAtEpochMs: day },
    ],
    day,
    2 * day,
  )
  expect(errands).toMatchObject([
    { kind: 'silent', sensors: ['ST-05A/force', 'ST-05B/force'], dueAtEpochMs: 3 },
    { kind: 'level-reached', urgency: 1 },
    { kind: 'certificate-due', urgency: 2 },
  ])
})

test('what reads but gives no value is gone to, as urgent as silence; silence is said once', () => {
  const mute = { ...gauge, withoutValue: true, lastAtEpochMs: day }
  expect(dueWork([mute], day, day)).toMatchObject([{ kind: 'without-value', urgency: 1, dueAtEpochMs: day }])
  expect(dueWork([{ ...mute, critical: true }], day, day)).toMatchObject([
    { kind: 'without-value', urgency: 0 },
  ])
  expect(dueWork([{ ...mute, late: true }], day, day).map(({ kind }) => kind)).toEqual(['silent'])
  expect(dueWork([{ ...dip, withoutValue: true, lastAtEpochMs: day }], day, day)).toMatchObject([
    { kind: 'without-value' },
  ])
})
