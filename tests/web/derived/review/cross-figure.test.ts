import { expect, test } from 'vitest'
import { crossPlot } from '#domain/review/cross-plot.ts'
import { pairNearest } from '#domain/review/pair-readings.ts'
import type { Trace } from '#domain/review/review-case.ts'
import { crossFigure } from '../../../../web/derived/review/cross-figure.ts'
import { figureScene } from '../../../../web/views/figure/scene.ts'
import { allMarks } from '../../../../web/views/marks/mark.ts'

const hourMs = 3_600_000
/** A loop: the one comes a few hours after the other. */
const trace = (point: string, lateHours: number, count = 40): Trace => ({
  series: `${point}/settlement`,
  point,
  measure: 'settlement',
  unit: 'mm',
  intervalMinutes: 60,
  standardUncertainty: 0.2,
  repeatability: 0.2,
  atEpochMs: Array.from({ length: count }, (_, i) => i * hourMs),
  values: Array.from({ length: count }, (_, i) => 5 * Math.sin((i - lateHours) / 6)),
})
const how = { by: 'nearest' as const, mostApartMinutes: 60, lagHours: 0 }
const figureOf = (x: Trace, y: Trace) => {
  const paired = pairNearest(x, y, { mostApartMs: hourMs, lagMs: 0 })
  return crossFigure([x, y], paired, crossPlot(paired.pairs), how, { decimals: [1, 1], timeZone: 'UTC' })
}
const marksOf = (x: Trace, y: Trace) =>
  allMarks(figureScene(figureOf(x, y), { widthPixels: 600, heightPixels: 600, fontPixels: 13 }))
const has = (mark: { attributes: { class?: string | number } }, name: string) =>
  String(mark.attributes.class ?? '')
    .split(' ')
    .includes(name)

test('swapping the axes swaps the plot', () => {
  const [one, other] = [figureOf(trace('A', 0), trace('B', 4)), figureOf(trace('B', 4), trace('A', 0))]
  expect(other.points.map(({ place: [x, y] }) => [y, x])).toEqual(one.points.map(({ place }) => [...place]))
  expect(other.x.name).toBe(one.y.name)
})

test('pairs run from light to dark in time, start and end are marked, and the loop is joined in order', () => {
  const marks = marksOf(trace('A', 0), trace('B', 4))
  const shades = marks.flatMap((mark) =>
    has(mark, 'figure-point') && mark.title ? [/shade-(\d)/.exec(String(mark.attributes.class))?.[1]] : [],
  )
  expect(shades[0]).toBe('0')
  expect(shades.at(-1)).toBe('5')
  expect(shades).toEqual(shades.toSorted())
  expect(marks.filter((mark) => has(mark, 'figure-end')).map(({ tag }) => tag)).toEqual(['circle', 'rect'])
  const order = figureOf(trace('A', 0), trace('B', 4)).curves.find(({ style }) => style === 'order')
  expect(order?.places).toHaveLength(40)
})

test('few points bear both uncertainties, many none', () => {
  const few = marksOf(trace('A', 0), trace('B', 4))
  expect(few.filter((mark) => has(mark, 'figure-bar'))).toHaveLength(80)
  const many = marksOf(trace('A', 0, 200), trace('B', 4, 200))
  expect(many.filter((mark) => has(mark, 'figure-bar'))).toHaveLength(0)
})

test('count, what was left out and the interval of the line are said; no pairs is said too', () => {
  const said = figureOf(trace('A', 0), trace('B', 4, 30)).remarks.join(' ')
  expect(said).toContain(
    '30 pairs of readings at most 60 min apart; left out without a partner: 10 of A settlement, 0 of B settlement.',
  )
  expect(said).toMatch(/Robust line .* count as independent: .* 95 %/)
  const none = figureOf(trace('A', 0), { ...trace('B', 0), atEpochMs: [], values: [] })
  expect(none.message).toContain('No two readings belong together')
})
