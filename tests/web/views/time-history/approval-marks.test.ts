import { expect, test } from 'vitest'
import { quality } from '../../../../api/domain/reduction/quality.ts'
import { approvalMarks } from '../../../../web/views/time-history/approval-marks.ts'
import type {
  HistorySeries,
  HistoryTrace,
  TimeHistoryProps,
} from '../../../../web/views/time-history/history-props.ts'
import { rowNotes } from '../../../../web/views/time-history/history-readout.ts'

const day = (number: number) => Date.UTC(2027, 8, number)
const props = {
  fromEpochMs: day(1),
  untilEpochMs: day(11),
  timeZone: 'UTC',
  traces: [],
} as unknown as TimeHistoryProps
const layout = { left: 0, right: 100, fontPixels: 10 } as Parameters<typeof approvalMarks>[1]
const pane = (...approved: (readonly (readonly [number, number])[])[]) =>
  ({
    bottom: 50,
    companion: false,
    series: approved.map(
      (own) =>
        ({
          approved: own.map(([from, until]) => ({ fromEpochMs: day(from), untilEpochMs: day(until) })),
        }) as unknown as HistorySeries,
    ),
  }) as unknown as Parameters<typeof approvalMarks>[2]
const drawn = (...approved: (readonly (readonly [number, number])[])[]) =>
  approvalMarks(props, layout, pane(...approved)).map(({ attributes }) => [
    attributes.class,
    Number(attributes.x),
    Number(attributes.x) + Number(attributes.width),
  ])

test('what is approved is solid, and everything else provisional to both ends', () => {
  expect(drawn([[3, 6]])).toEqual([
    ['provisional', 0, 20],
    ['approved', 20, 50],
    ['provisional', 50, 100],
  ])
  expect(drawn([])).toEqual([['provisional', 0, 100]])
  expect(drawn([[-5, 40]])).toEqual([['approved', 0, 100]])
})

test('a pane is approved only where all its series are', () => {
  expect(drawn([[1, 6]], [[4, 11]])).toEqual([
    ['provisional', 0, 30],
    ['approved', 30, 50],
    ['provisional', 50, 100],
  ])
  expect(drawn([[1, 6]], [])).toEqual([['provisional', 0, 100]])
})

const approvedAtEpochMs = day(20)
const series = (change: Partial<HistorySeries> = {}): HistorySeries =>
  ({
    series: 1,
    intervalMinutes: 1440,
    lateAfterMinutes: 60,
    approved: [{ fromEpochMs: day(1), untilEpochMs: day(11), approvedAtEpochMs }],
    verdicts: [],
    checkLimits: [],
    ...change,
  }) as unknown as HistorySeries
const trace = (change: Partial<HistoryTrace> = {}): HistoryTrace =>
  ({
    series: 1,
    resolution: 'raw',
    atEpochMs: Float64Array.of(day(3), day(4), day(5), day(12)),
    quality: new Float64Array(4),
    flags: new Float64Array(4),
    receivedAfterSeconds: Float64Array.of(Number.NaN, 86_400 * 16, 86_400 * 16 + 1, Number.NaN),
    ...change,
  }) as unknown as HistoryTrace
const words = (of: HistorySeries, shown: HistoryTrace) =>
  [0, 1, 2, 3].map((row) => rowNotes(of, shown, row).at(-1))

// Common practice, no published source: what was not there when a person looked was not looked at.
test('a reading that arrived after the approval is provisional in the table and along the foot', () => {
  expect(words(series(), trace())).toEqual([
    'approved',
    'approved',
    'provisional: arrived after the approval',
    'provisional',
  ])
  const shown = {
    ...props,
    traces: [trace({ receivedAfterSeconds: Float64Array.of(Number.NaN, 86_400 * 17, 0, 0) })],
  }
  const strip = approvalMarks(shown, layout, { bottom: 50, companion: false, series: [series()] } as never)
  expect(strip.map(({ attributes }) => [attributes.class, Number(attributes.x)])).toEqual([
    ['approved', 0],
    ['provisional', 25],
    ['approved', 35],
  ])
})

test('of a day it is only said to be approved where all its readings had arrived by then', () => {
  const { receivedAfterSeconds: _, ...rest } = trace({
    resolution: 'day',
    quality: Float64Array.of(0, quality.receivedLate, 0, 0),
  })
  const notes = words(series(), rest)
  expect(notes[0]).toBe('approved')
  expect(notes[1]).toBe('provisional: not told here whether it had arrived when it was approved')
  const soon = [{ fromEpochMs: day(1), untilEpochMs: day(11), approvedAtEpochMs: day(5) }]
  expect(words(series({ approved: soon }), rest)[2]).not.toBe('approved')
})
