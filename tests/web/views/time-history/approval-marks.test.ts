import { expect, test } from 'vitest'
import { approvalMarks } from '../../../../web/views/time-history/approval-marks.ts'
import type { HistorySeries, TimeHistoryProps } from '../../../../web/views/time-history/history-props.ts'

const day = (number: number) => Date.UTC(2027, 8, number)
const props = { fromEpochMs: day(1), untilEpochMs: day(11), timeZone: 'UTC' } as TimeHistoryProps
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
