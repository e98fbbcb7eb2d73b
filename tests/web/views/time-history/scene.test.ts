import { describe, expect, test } from 'vitest'
import { allMarks, type Mark } from '../../../../web/views/marks/mark.ts'
import { timeHistoryScene } from '../../../../web/views/time-history/scene.ts'
import { hourly, madeHistory } from './made-history.ts'

const size = { widthPixels: 1000, heightPixels: 600, fontPixels: 14 }
const drawn = (...given: Parameters<typeof madeHistory>) =>
  allMarks(timeHistoryScene(madeHistory(...given), size).marks)
const ofClass = (marks: readonly Mark[], name: string) =>
  marks.filter((mark) =>
    String(mark.attributes.class ?? '')
      .split(' ')
      .includes(name),
  )
const strokes = (mark: Mark | undefined) => (String(mark?.attributes.d).match(/M/g) ?? []).length
const level = {
  level: 1,
  name: 'Level 1',
  value: 30,
  direction: 'above' as const,
  validFromEpochMs: 0,
  validUntilEpochMs: null,
}
const series = madeHistory().series[0] as NonNullable<ReturnType<typeof madeHistory>['series'][0]>

describe('gaps', () => {
  test('readings an interval apart are one line', () => {
    expect(strokes(ofClass(drawn(), 'trace')[0])).toBe(1)
  })

  test('a missing reading breaks the line, and so does one without a value', () => {
    const traces = [hourly(1, [1, 2, 3, undefined, 5, 6, null, 8, 9])]
    const marks = drawn({ traces })
    expect(strokes(ofClass(marks, 'trace')[0])).toBe(3)
    expect(ofClass(marks, 'no-value')).toHaveLength(1)
  })

  test('a gap within one pixel of a dense line is not bridged', () => {
    const dense = Array.from({ length: 20_000 }, (_, hour) =>
      hour > 9_000 && hour < 9_010 ? undefined : hour % 7,
    )
    const marks = drawn({ traces: [hourly(1, dense)], untilEpochMs: 20_000 * 3_600_000 })
    expect(strokes(ofClass(marks, 'trace')[0])).toBe(2)
  })
})

test('an expected band is said by the digits that its ends have, alike on both', () => {
  const said = (low: number, high: number) =>
    ofClass(
      drawn({
        series: [
          {
            ...series,
            unit: 'mm',
            envelope: [{ fromEpochMs: 0, untilEpochMs: null, low, high, stage: 'dig' }],
          },
        ] as never,
        traces: [hourly(1, [low, high])],
      }),
      'expected-band',
    ).map((mark) => JSON.stringify(mark))[0]
  expect(said(-1234, 1250)).toContain('“dig”: −1234 to 1250 mm')
  expect(said(0.1 + 0.2, 12.34)).toContain('“dig”: 0.30 to 12.34 mm')
})

test('day buckets keep lowest and highest as a band around the means', () => {
  const trace = hourly(1, [1, 2, 3])
  const marks = drawn({
    traces: [{ ...trace, resolution: 'hour', low: Float64Array.of(0, 1, 2), high: Float64Array.of(5, 6, 7) }],
  })
  expect(ofClass(marks, 'band')).toHaveLength(1)
  expect(ofClass(drawn({ traces: [trace] }), 'band')).toHaveLength(0)
})

test('late receipt is hatched at the foot and its marks are hollow', () => {
  const trace = hourly(1, [1, 2, 3, 4, 5, 6])
  trace.quality.set([8, 8, 8], 2)
  const marks = drawn({ traces: [trace] })
  expect(ofClass(marks, 'late-stretch')).toHaveLength(1)
  expect(ofClass(marks, 'received-late')).toHaveLength(3)
  expect(ofClass(drawn(), 'late-stretch')).toHaveLength(0)
})

describe('marks of automatic checks', () => {
  const flagged = () => {
    const trace = hourly(1, [1, 2, 30, 4, 5, 6])
    // Suspect spike, failing range, and both.
    trace.flags.set([0, 16, 2, 18, 0, 0])
    return trace
  }

  test('are told by shape, a cross before a triangle, and the reading stays drawn', () => {
    const marks = drawn({ traces: [flagged()] })
    expect(ofClass(marks, 'check-suspect')).toHaveLength(1)
    expect(ofClass(marks, 'check-fails')).toHaveLength(2)
    expect(ofClass(marks, 'check-fails')[0]?.title).toContain('fails: range')
    expect(ofClass(marks, 'reading')).toHaveLength(6)
    expect(strokes(ofClass(marks, 'trace')[0])).toBe(1)
    expect(ofClass(drawn(), 'check-suspect')).toHaveLength(0)
  })

  test('are as many as there is room for where they stand close', () => {
    const trace = hourly(
      1,
      Array.from({ length: 20_000 }, (_, hour) => hour % 7),
    )
    trace.flags.fill(16)
    const marks = drawn({ traces: [trace], untilEpochMs: 20_000 * 3_600_000 })
    expect(ofClass(marks, 'check-suspect').length).toBeGreaterThan(20)
    expect(ofClass(marks, 'check-suspect').length).toBeLessThan(100)
  })
})

test('verdicts are bands by shape and word, and take no reading off the drawing', () => {
  const verdict = {
    id: 'V-1',
    series: 'PZ-09A/pore-pressure',
    fromAt: 2 * 3_600_000,
    untilAt: 12 * 3_600_000,
    verdict: 'rejected' as const,
    reason: 'cable wet',
    alternatives: 'leak',
    author: 'A. Reed',
    at: 0,
  }
  const marks = drawn({ series: [{ ...series, verdicts: [verdict] }] })
  const [band] = ofClass(marks, 'rejected')
  expect(band?.title).toContain('rejected')
  expect(band?.title).toContain('A. Reed: cable wet')
  expect(strokes(band)).toBeGreaterThan(4)
  expect(ofClass(marks, 'verdict-name')[0]?.text).toContain('rejected')
  expect(ofClass(marks, 'reading')).toHaveLength(24)
})

test('a proposed stretch is framed over the readings, in words too, and not over companions', () => {
  const proposed = { fromEpochMs: 2 * 3_600_000, untilEpochMs: 6 * 3_600_000 }
  const companions = [{ series: { ...series, series: 2, name: 'BA-09' }, drawnAs: 'line' as const }]
  const frames = ofClass(drawn({ proposed, companions }), 'proposed').filter(({ tag }) => tag !== 'g')
  expect(frames.map(({ title }) => title)).toEqual([
    'Proposed: from Thu 1 Jan 1970 02:00 to Thu 1 Jan 1970 06:00',
  ])
  expect(ofClass(drawn(), 'proposed').filter(({ tag }) => tag !== 'g')).toEqual([])
})

describe('trigger levels', () => {
  test('that of one series does not end with an equal one of another in its pane', () => {
    const ended = { ...level, validUntilEpochMs: 6 * 3_600_000 }
    const two = [
      { ...series, levels: [ended] },
      { ...series, series: 2, name: 'PZ-10A', levels: [level] },
    ]
    const lines = ofClass(drawn({ series: two }), 'level').filter((mark) => mark.tag === 'line')
    const ends = lines.map(({ attributes }) => Number(attributes.x2))
    const whole = ofClass(drawn({ series: two.slice(1) }), 'level').find((mark) => mark.tag === 'line')
    expect(Math.max(...ends)).toBe(Number(whole?.attributes.x2))
  })

  test('within reach of the readings one is a named line', () => {
    const marks = drawn({ series: [{ ...series, levels: [level] }] })
    expect(ofClass(marks, 'level').filter((mark) => mark.tag === 'line')).toHaveLength(1)
    expect(marks.some((mark) => mark.text === 'Level 1 30 kPa')).toBe(true)
  })

  test('far from the readings it is named at the edge, never left out', () => {
    const marks = drawn({ series: [{ ...series, levels: [{ ...level, value: 3000 }] }] })
    expect(ofClass(marks, 'beyond').map((mark) => mark.text)).toEqual([
      'above this scale: Level 1 3000 kPa ↑',
    ])
  })

  test('watching either way it stands on both sides', () => {
    const both = { ...level, value: 26, direction: 'either' as const }
    const marks = drawn({ series: [{ ...series, levels: [both] }], traces: [hourly(1, [-20, 20])] })
    expect(ofClass(marks, 'level').filter((mark) => mark.tag === 'line')).toHaveLength(2)
  })

  test('before it was agreed it is not drawn', () => {
    const later = { ...level, validFromEpochMs: 12 * 3_600_000 }
    const [mark] = ofClass(drawn({ series: [{ ...series, levels: [later] }] }), 'level')
    expect(Number(mark?.attributes.x1)).toBeGreaterThan(450)
  })
})

test('a hold point is drawn until its stage may begin, with its condition', () => {
  const marks = drawn({
    holds: [
      { series: 1, value: 20, sentence: 'Before “dig 3”: at most 20 kPa', untilEpochMs: 12 * 3_600_000 },
    ],
  })
  const [mark] = ofClass(marks, 'hold')
  expect(Number(mark?.attributes.x2)).toBeLessThan(550)
  expect(marks.some((one) => one.text === 'Before “dig 3”: at most 20 kPa')).toBe(true)
})

test('the clock shows the last reading at or before it, and none when that is old', () => {
  const at = (values: (number | undefined)[]) => ofClass(drawn({ traces: [hourly(1, values)] }), 'at-clock')
  expect(at(Array.from({ length: 24 }, (_, hour) => hour))).toHaveLength(1)
  expect(at([1, 2, 3])).toHaveLength(0)
})

test('stages that overlap do not cover each other', () => {
  const hour = 3_600_000
  const marks = drawn({
    stages: [
      { name: 'Pumping', fromEpochMs: 2 * hour, untilEpochMs: null },
      { name: 'Dig', fromEpochMs: 4 * hour, untilEpochMs: 8 * hour },
    ],
  })
  const [pumping, dig] = ofClass(marks, 'stage')
  expect(pumping?.attributes.y).not.toBe(dig?.attributes.y)
})

test('rain is bars from zero, in a strip of its own below', () => {
  const { layout, marks } = timeHistoryScene(
    madeHistory({
      companions: [
        { drawnAs: 'bars', series: { ...series, series: 2, name: 'RG-1', measure: 'Rainfall', unit: 'mm' } },
      ],
      traces: [hourly(1, [1, 2]), hourly(2, [0, 3, 0, 1])],
    }),
    size,
  )
  const [main, rain] = layout.panes
  expect(rain?.top).toBeGreaterThan(main?.bottom ?? 0)
  expect(rain?.extent.low).toBe(0)
  expect(strokes(ofClass(allMarks(marks), 'bars')[0])).toBe(2)
})

test('measures with different units have panes of their own', () => {
  const { layout } = timeHistoryScene(
    madeHistory({ series: [series, { ...series, series: 2, measure: 'Settlement', unit: 'mm' }] }),
    size,
  )
  expect(layout.panes.map((pane) => pane.unit)).toEqual(['kPa', 'mm'])
})

test('without readings it says so; while they are fetched it says that', () => {
  const messages = (waiting: boolean) =>
    ofClass(drawn({ traces: [], waiting }), 'message').map((mark) => mark.text)
  expect(messages(false)).toEqual(['No readings between these dates.'])
  expect(messages(true)).toEqual(['Fetching readings …'])
})

test('axes say unit, site zone and its offset', () => {
  const texts = drawn({ timeZone: 'Atlantic/Azores' }).map((mark) => mark.text)
  expect(texts).toContain('Pore pressure, kPa')
  expect(texts.some((text) => text?.startsWith('Site time, Atlantic/Azores (UTC'))).toBe(true)
})

test.each([
  [320, 400],
  [820, 500],
  [1900, 900],
])('at %i by %i every mark lies within the drawing', (widthPixels, heightPixels) => {
  const { marks } = timeHistoryScene(madeHistory({ series: [{ ...series, levels: [level] }] }), {
    widthPixels,
    heightPixels,
    fontPixels: 12,
  })
  for (const mark of allMarks(marks)) {
    const x = Number(mark.attributes.x ?? mark.attributes.x1 ?? 0)
    const y = Number(mark.attributes.y ?? mark.attributes.y1 ?? 0)
    expect(x).toBeGreaterThanOrEqual(-0.5)
    expect(x).toBeLessThanOrEqual(widthPixels)
    expect(y).toBeLessThanOrEqual(heightPixels)
  }
})

test('what is expected by the end of a stage is a bar with feet at that instant, cut at the scale', () => {
  const marksOf = (atEpochMs: number, low: number, high: number) =>
    ofClass(
      drawn({ series: [{ ...series, expected: [{ atEpochMs, low, high, sentence: 'Expected.' }] }] }),
      'expected',
    )
  const within = madeHistory().fromEpochMs + 3_600_000
  expect(marksOf(within, 1, 3)).toHaveLength(3)
  expect(marksOf(within, -1e6, 1e6)).toHaveLength(1)
  expect(marksOf(madeHistory().untilEpochMs + 1, 1, 3)).toHaveLength(0)
})

test('a line keeps the ink of its place in the table, though its pane comes after another measure', () => {
  const named = (number: number, name: string, measure: string) => ({
    ...series,
    series: number,
    name,
    measure,
  })
  const marks = drawn({
    // The table beside the drawing gives ink 0, 1 and 2 in this order.
    series: [named(1, 'ST-02', 'Force'), named(2, 'ST-02', 'Temperature'), named(3, 'ST-02-1', 'Force')],
    traces: [hourly(1, [1, 2, 3]), hourly(2, [15, 15, 15]), hourly(3, [4, 5, 6])],
    untilEpochMs: 2.5 * 3_600_000,
    clockEpochMs: 2 * 3_600_000,
  })
  const inks = ofClass(marks, 'trace').map(({ attributes }) => String(attributes.class).match(/ink-\d/)?.[0])
  expect(inks).toEqual(['ink-0', 'ink-2', 'ink-1'])
  const atClock = ofClass(marks, 'at-clock').map(
    ({ attributes }) => String(attributes.class).match(/ink-\d/)?.[0],
  )
  expect(atClock).toEqual(['ink-0', 'ink-2', 'ink-1'])
})
