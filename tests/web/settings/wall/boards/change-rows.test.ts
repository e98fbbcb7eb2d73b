import { expect, it } from 'vitest'
import type { Changed } from '../../../../../web/derived/meeting/changes-between.ts'
import { changeRows } from '../../../../../web/settings/wall/boards/change-rows.ts'
import { presentEpochMs, series } from '../../../state/small-site.ts'

const changed = (name: string, change: number, halfWidth: number | null): Changed => ({
  series: series(1, `${name}/settlement`),
  change,
  halfWidth,
  sinceReadEpochMs: 0,
  readEpochMs: presentEpochMs,
})

it('shows the largest of a measure with their intervals, and counts those that cannot be told', () => {
  const rows = changeRows(
    [
      {
        measure: 'settlement',
        unit: 'mm',
        changed: [
          changed('SP-1', -4, 0.28),
          changed('SP-2', 2, 0.28),
          changed('SP-3', 0.1, 0.28),
          changed('SP-4', 0, 0.28),
        ],
        untold: [series(9, 'SP-9/settlement')],
      },
    ],
    [],
    'UTC',
  )
  expect(rows.map(({ heading, cells }) => heading ?? cells.join(' | '))).toEqual([
    'Settlement, the largest of 4; 1 without a current value: its change is not known',
    'SP-1 | −4.0 mm | −4.3 to −3.7 mm',
    'SP-2 | +2.0 mm | 1.7 to 2.3 mm',
    'Revised since they were told at the meeting before',
    'none |  | No value told then is another now, as far as it is still the last one.',
  ])
})

it('tells revised values apart, with what was told and what is known now', () => {
  const told = { value: 1, atEpochMs: presentEpochMs }
  const revised = (now: { value: number; atEpochMs: number } | null) =>
    changeRows([], [{ series: series(1, 'SP-1/settlement'), told, now }], 'UTC')[1]?.cells
  expect(revised({ value: 1.5, atEpochMs: presentEpochMs })).toEqual([
    'SP-1',
    'told 1.00 mm',
    'Settlement of 1 Jun 12:00: now 1.50 mm, by another calibration, zero or verdict.',
  ])
  expect(revised({ value: 1.5, atEpochMs: presentEpochMs - 60_000 })?.[2]).toContain('has no value any more')
  expect(revised(null)?.[2]).toContain('no longer there')
  expect(changeRows([], null, 'UTC')[1]?.cells[0]).toBe('not known')
})

it('counts series to which later readings came in, instead of a row each', () => {
  const told = { value: 1, atEpochMs: presentEpochMs }
  const one = { series: series(1, 'SP-1/settlement'), told, now: { value: 2, atEpochMs: presentEpochMs + 1 } }
  const rows = changeRows([], [one, one], 'UTC')
  expect(rows.slice(1).map(({ cells }) => cells.slice(0, 2))).toEqual([
    ['none', ''],
    ['filled later', '2 series'],
  ])
})

it('shows one change of a measure in which none goes beyond its interval', () => {
  const measure = { measure: 'settlement' as const, unit: 'mm', untold: [] }
  const rows = changeRows(
    [{ ...measure, changed: [changed('SP-1', 0.2, 0.28), changed('SP-2', 0.1, 0.28)] }],
    [],
    'UTC',
  )
  expect(rows.slice(0, 2).map(({ heading, cells }) => heading ?? cells.join(' | '))).toEqual([
    'Settlement, the largest of 2',
    'SP-1 | +0.2 mm | −0.1 to 0.5 mm; may be none',
  ])
})
