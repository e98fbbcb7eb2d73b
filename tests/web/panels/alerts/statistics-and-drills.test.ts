import { expect, test } from 'vitest'
import { alertStatistics, type CountedAlert } from '#domain/alerts/alert-statistics.ts'
import { timeToAcknowledgeFigure } from '../../../../web/derived/figures/time-to-acknowledge-figure.ts'
import { drillEvidence, drillStandingSentence } from '../../../../web/panels/alerts/drill-words.ts'
import { countCells, runSentences } from '../../../../web/panels/alerts/statistics-rows.ts'
import { attempted } from '../../../support/alert-events.ts'
import { acknowledged, listedAlert, minuteMs } from '../../../support/listed-alerts.ts'

const at = Date.UTC(2027, 5, 1, 8)
const counted = (place: number, more: Partial<CountedAlert> = {}): CountedAlert => ({
  level: 'SP-1 1',
  instrument: 'SP-1',
  raisedAtEpochMs: at + place * 24 * 60 * minuteMs,
  finding: null,
  acknowledgedAfterMs: null,
  ...more,
})

test('findings are told as shares of those closed with Wilson’s interval', () => {
  // By hand from the formula of the score interval: of 0 in 10 at 95 % 0 to 0.2775, of 5 in 10 0.2366 to 0.7634.
  const alerts = Array.from({ length: 10 }, (_, place) =>
    counted(place, { finding: place < 5 ? 'movement' : 'nuisance', acknowledgedAfterMs: 30 * minuteMs }),
  )
  const { all } = alertStatistics([...alerts, counted(11)], 'UTC')
  expect(countCells(all)).toEqual([
    '11',
    '10',
    '5: 50 % (24 to 76 %)',
    '5: 50 % (24 to 76 %)',
    '0: 0 % (0 to 28 %)',
    '30 min',
    '30 min',
    '1',
  ])
  expect(countCells(alertStatistics([counted(1)], 'UTC').all)).toEqual([
    '1',
    '0',
    '–',
    '–',
    '–',
    '–',
    '–',
    '1',
  ])
})

test('times until acknowledged are drawn by month, and what nobody acknowledged is said beside them', () => {
  const months = alertStatistics(
    [counted(0, { acknowledgedAfterMs: 90 * minuteMs }), counted(1), counted(40)],
    'UTC',
  ).byMonth
  const figure = timeToAcknowledgeFigure(months, 'UTC')
  expect(figure.points.map(({ place }) => place[1])).toEqual([1.5])
  expect(figure.table.rows).toEqual([
    ['2027-06', '2', '1', '1.50', '1.50'],
    ['2027-07', '1', '1', '–', '–'],
  ])
  expect(figure.remarks).toHaveLength(2)
  expect(timeToAcknowledgeFigure([], 'UTC').message).not.toBeNull()
})

test('a flood and a chattering level are told with when and how many', () => {
  const run = { fromEpochMs: at, untilEpochMs: at + 8 * minuteMs, count: 12 }
  expect(
    runSentences(
      { floods: [run], chattering: [{ ...run, untilEpochMs: at, level: 'SP-1 1', count: 3 }] },
      'UTC',
    ),
  ).toEqual([
    'Flood: 12 alerts within 8 min, 1 Jun 08:00.',
    'Chattering: SP-1 1, 3 alerts at once, 1 Jun 08:00.',
  ])
})

test('a drill that was not held is told as such; one that was, with when the next is due', () => {
  const drill = {
    duty: 'night',
    dueEpochMs: at,
    nextEpochMs: at + 30 * 1440 * minuteMs,
    heldEpochMs: null,
    lastEpochMs: null,
  }
  expect(drillStandingSentence(drill, 'UTC')).toBe(
    'The drill for night due Tue 1 Jun 2027 08:00 was not held: hold it now. None was ever held. The next is due Thu 1 Jul 2027 08:00.',
  )
  expect(drillStandingSentence({ ...drill, heldEpochMs: at + minuteMs }, 'UTC')).toContain(
    'was held Tue 1 Jun 2027 08:01.',
  )
  expect(drillStandingSentence(null, 'UTC')).toContain('No monthly drill is planned')
})

test('the evidence of a drill says whether anything arrived and whether anybody answered', () => {
  const told = listedAlert(
    3,
    [
      [1, attempted('failed')],
      [2, attempted('delivered')],
      [9, acknowledged(), 'Ada'],
    ],
    { zeroEpochMs: at },
  )
  expect(drillEvidence(told, 'UTC')).toBe(
    '1 Jun 08:00: first message handed over after 2 min, 1 in all, 1 not; taken up by Ada after 9 min.',
  )
  expect(drillEvidence(listedAlert(3, [], { zeroEpochMs: at }), 'UTC')).toBe(
    '1 Jun 08:00: no message was handed over; nobody has taken it up.',
  )
})
