import { describe, expect, test } from 'vitest'
import type { Series, SiteDocument } from '#contract/site-document.ts'
import { allMarks, type Mark } from '../../../../web/views/marks/mark.ts'
import { historyRemarks } from '../../../../web/views/time-history/history-remarks.ts'
import { historyTable } from '../../../../web/views/time-history/history-table.ts'
import {
  historyJoined,
  joinedReadouts,
  joinedSeries,
  joinedTraces,
} from '../../../../web/views/time-history/joined-history.ts'
import { timeHistoryScene } from '../../../../web/views/time-history/scene.ts'
import { hourly, madeHistory } from './made-history.ts'

const hourMs = 3_600_000
const size = { widthPixels: 1000, heightPixels: 600, fontPixels: 14 }
const seriesOf = (number: number, point: string) =>
  ({
    series: number,
    id: `${point}/pore-pressure`,
    point,
    measure: 'pore-pressure',
    unit: 'kPa',
    decimals: 2,
    intervalMinutes: 60,
    uncertaintyPeriods: [
      { fromEpochMs: 0, commonSinceEpochMs: 0, standardUncertainty: 0.3, independent: null },
    ],
  }) as unknown as Series
const [first, second, third] = [seriesOf(3, 'PZ-1'), seriesOf(2, 'PZ-1R'), seriesOf(1, 'PZ-1S')]
const document = {
  facts: { timeZone: 'UTC' },
  series: [first, second, third],
  checkLimits: [],
  verdicts: [],
  predictions: [],
  verdictWithdrawals: [],
  joins: [
    { series: third.id, follows: second.id, at: 16 * hourMs, offset: -0.5, standardUncertainty: 0.4 },
    { series: second.id, follows: first.id, at: 8 * hourMs, offset: 2, standardUncertainty: 0.3 },
  ],
} as unknown as SiteDocument

const all = (level: number) => Array.from({ length: 24 }, (_, hour) => level + hour)
// The newest reads from hour 12 on, beside the one that it carries on from.
const traces = [
  hourly(1, [...Array.from({ length: 12 }, () => undefined), ...all(100).slice(12)]),
  hourly(2, all(200)),
  hourly(3, all(300)),
]
const plain = madeHistory({ traces }).series[0]
const joined = { ...plain, name: 'PZ-1S', series: 1, joined: historyJoined(document, third) } as NonNullable<
  typeof plain
>
const history = (changes: Parameters<typeof madeHistory>[0] = {}) =>
  madeHistory({ traces, series: [joined], ...changes })
const classed = (marks: readonly Mark[], ...names: string[]) =>
  allMarks(marks).filter((mark) => {
    const classes = String(mark.attributes.class ?? '').split(' ')
    return names.every((name) => classes.includes(name))
  })

describe('a series that carries on from others', () => {
  test('asks for the readings of all of them', () => {
    expect(joinedSeries(document, third)).toEqual([second, first])
    expect(joinedSeries(document, first)).toEqual([])
  })

  test('has each on its level, in its own stretch, with offsets and uncertainties of the chain', () => {
    expect(joined.joined?.map((one) => one.label)).toEqual([
      'joined from PZ-1R, offset +0.5 kPa, ± 0.4 kPa',
      'joined from PZ-1, offset −1.5 kPa, ± 0.5 kPa',
    ])
    expect(joined.joined?.[1]?.standardUncertainty).toBeCloseTo(Math.hypot(0.3, 0.5), 12)
    const parts = joinedTraces(joined, traces)
    expect(parts.map(({ trace }) => [trace.atEpochMs[0], trace.atEpochMs.at(-1)])).toEqual([
      [8 * hourMs, 15 * hourMs],
      [0, 7 * hourMs],
    ])
    expect(parts[0]?.trace.value[0]).toBe(208.5)
    expect(parts[1]?.trace.value[0]).toBe(298.5)
    // The series themselves stay as they are.
    expect(traces[1]?.value[8]).toBe(208)
  })

  test('is drawn with them in another style, a line and a label at each join', () => {
    const { marks, layout } = timeHistoryScene(history(), size)
    expect(classed(marks, 'trace', 'joined')).toHaveLength(2)
    expect(classed(marks, 'trace')).toHaveLength(3)
    expect(classed(marks, 'join').map(({ text }) => text)).toContain(joined.joined?.[0]?.label)
    expect(classed(marks, 'join').filter(({ tag }) => tag === 'line')).toHaveLength(2)
    expect(layout.panes[0]?.extent.high).toBeGreaterThan(305)
  })

  test('is drawn unjoined without a trace of them', () => {
    const { joined: _, ...alone } = joined
    const { marks, layout } = timeHistoryScene(history({ series: [alone] }), size)
    expect(classed(marks, 'joined')).toEqual([])
    expect(classed(marks, 'join')).toEqual([])
    expect(layout.panes[0]?.extent.high).toBeLessThan(130)
  })

  test('says in words what is drawn and what a change across the join holds', () => {
    const [, earliest] = historyRemarks(history()).filter((one) => one.includes('long pale dashes'))
    expect(earliest).toBe(
      'Before Thu 1 Jan 1970 08:00, in long pale dashes: PZ-1 on the level of PZ-1S, −1.5 kPa added to its values by 2 joins. That offset has a standard uncertainty of 0.5 kPa, which a change across it holds as well; with its own the values so drawn have 0.58 kPa.',
    )
  })

  test('names the series of each row of its table', () => {
    const rows = historyTable(history()).rows
    expect(rows).toHaveLength(12 + 8 + 8)
    expect(rows.at(-1)).toEqual([
      'Thu 1 Jan 1970 00:00',
      'PZ-1 pore pressure, on the level of PZ-1S',
      '298.50 kPa',
      '',
      'reading',
      'joined from PZ-1, offset −1.5 kPa, ± 0.5 kPa',
    ])
    expect(rows[0]?.[1]).toBe('PZ-1S pore pressure')
  })

  test('tells at the clock what the series said that stood then, and nothing after the join', () => {
    const [at] = joinedReadouts(joined, traces, 9.5 * hourMs)
    expect([at?.series.name, at?.value, at?.notes[0]]).toEqual(['PZ-1R', 209.5, joined.joined?.[0]?.label])
    expect(joinedReadouts(joined, traces, 16 * hourMs)).toEqual([])
  })
})
