import { expect, test } from 'vitest'
import type { FieldGuide } from '#contract/field-guide.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import type { StateDocument } from '#contract/state-document.ts'
import { nearestInstruments } from '../../../web/derived/nearest-instruments.ts'
import { roundStops } from '../../../web/derived/round-stops.ts'
import { presentEpochMs, series, state } from '../state/small-site.ts'

const location = (id: string, east: number) => ({ id, eastingMetres: east, northingMetres: 0 })
const document = {
  instruments: ['TM-01', 'TM-02', 'TM-03'].map((id) => ({ id, location: id, retiredAtEpochMs: null })),
  locations: [location('TM-01', 0), location('TM-02', 10), location('cabinet', 100)],
  loggers: [
    { id: 'LG-01', location: 'cabinet' },
    { id: 'LG-02', location: null },
  ],
  ...{ verdicts: [], verdictWithdrawals: [], points: [], diary: [], joins: [], triggerLevels: [] },
  series: [series(1, 'TM-01/tilt'), series(2, 'TM-02/tilt'), series(3, 'TM-03/tilt')],
} as unknown as SiteDocument
const states = {
  states: [state(1, { late: true }), state(2), state(3, { late: true })],
} as unknown as StateDocument
const guide = {
  sensors: ['TM-01', 'TM-02', 'TM-03'].map((id) => ({
    id: `${id}/tilt`,
    instrument: id,
    byHand: false,
    wiring: null,
    intervalMinutes: 60,
    certificateDueAtEpochMs: null,
  })),
} as unknown as FieldGuide
const choice = {
  logger: null,
  nowEpochMs: presentEpochMs,
  horizonEpochMs: presentEpochMs,
  readHere: new Map(),
  from: null,
}
const silent = (logger: string) => ({ logger, urgency: 0 as const, remarks: [] })

test('a failing logger is a stop of the round, and what has no place is told apart, not left out', () => {
  const { stops, unplaced } = roundStops(document, states, guide, choice, [silent('LG-01'), silent('LG-02')])
  expect(stops.map(({ location: at, urgency }) => [at, urgency])).toEqual([
    ['cabinet', 0],
    ['TM-01', 1],
  ])
  expect(unplaced.loggers.map(({ logger }) => logger)).toEqual(['LG-02'])
  expect(unplaced.errands.map(({ instrument }) => instrument)).toEqual(['TM-03'])
})

test('a visit that a verdict orders is due at its place until one is noted there, and not for a reading crew', () => {
  const verdict = {
    ...{ id: 'V-1', series: 'TM-02/tilt', fromAt: 0, untilAt: null, at: presentEpochMs - 5 },
    effects: 'visit ordered',
  }
  const point = { id: 'TM-02', instrument: 'TM-02', eastingMetres: 10, northingMetres: 0 }
  const ordered = (diary: object[] = [], given: object = choice) => {
    const site = { ...document, verdicts: [verdict], points: [point], diary } as unknown as SiteDocument
    return roundStops(
      site,
      { states: [] } as unknown as StateDocument,
      { ...guide, sensors: [] },
      given as typeof choice,
    ).stops
  }
  expect(ordered().map(({ location: at, errands }) => [at, errands[0]?.kind, errands[0]?.sensors])).toEqual([
    ['TM-02', 'visit-ordered', ['TM-02/tilt']],
  ])
  const visit = (at: number, eastingMetres: number) => ({
    kind: 'visit',
    at,
    eastingMetres,
    northingMetres: 0,
  })
  expect(ordered([visit(presentEpochMs - 9, 10), visit(presentEpochMs - 1, 40)])).toHaveLength(1)
  expect(ordered([visit(presentEpochMs - 1, 11)])).toEqual([])
  expect(ordered([], { ...choice, logger: 'LG-01' } as unknown as typeof choice)).toEqual([])
})

test('an old reading by hand does not hide that a sensor fell silent; a fresh one does', () => {
  const readAt = (atEpochMs: number) =>
    roundStops(document, states, guide, { ...choice, readHere: new Map([['TM-01/tilt', atEpochMs]]) }).stops
  expect(readAt(presentEpochMs - 30 * 86_400_000)).toHaveLength(1)
  expect(readAt(presentEpochMs - 60_000)).toHaveLength(0)
})

test('a critical sensor that reads in time without a value is gone to first, and a reading that waits here does not lift that', () => {
  const kinds = (late: boolean, readHere: ReadonlyMap<string, number>) =>
    roundStops(
      { ...document, series: [series(1, 'TM-01/tilt', { critical: true })] } as SiteDocument,
      { states: [state(1, { value: null, level: null, late })] } as unknown as StateDocument,
      guide,
      { ...choice, readHere },
    ).stops.map(({ urgency, errands }) => [urgency, errands.map(({ kind }) => kind)])
  const waiting = new Map([['TM-01/tilt', presentEpochMs - 60_000]])
  expect(kinds(false, new Map())).toEqual([[0, ['without-value']]])
  expect(kinds(false, waiting)).toEqual([[0, ['without-value']]])
  expect(kinds(true, new Map())).toEqual([[0, ['silent-critical']]])
  expect(kinds(true, waiting)).toEqual([[0, ['without-value']]])
})

test('the nearest instruments, without those of no known place', () => {
  const here = { eastingMetres: 6, northingMetres: 0 }
  expect(nearestInstruments(document, here, presentEpochMs, 5)).toEqual([
    { instrument: 'TM-02', awayMetres: 4 },
    { instrument: 'TM-01', awayMetres: 6 },
  ])
})
