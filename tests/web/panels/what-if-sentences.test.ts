import { describe, expect, it } from 'vitest'
import type { Series } from '#contract/site-document.ts'
import { compareSeries } from '#domain/what-if/compare-series.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import { whatIfDifferenceFigure } from '../../../web/derived/figures/what-if-figure.ts'
import { surfacePane, withSandboxValues } from '../../../web/derived/what-if-surface.ts'
import { columnsOf } from '../../../web/engine/columns.ts'
import {
  differenceSentences,
  episodesText,
  fateSentence,
} from '../../../web/panels/what-if/what-if-sentences.ts'
import { levelFor } from '../../support/level-for.ts'

const hourMs = 3_600_000
const series: Series = {
  series: 1,
  id: 'P-1/settlement',
  point: 'P-1',
  measure: 'settlement',
  unit: 'mm',
  decimals: 1,
  standardUncertainty: 0.5,
  intervalMinutes: 60,
  lateAfterMinutes: 120,
  critical: false,
  positiveMeans: 'down',
}
const valuesOf = (value: readonly number[]): ReducedSeries => ({
  atEpochMs: Float64Array.from(value, (_, at) => at * hourMs),
  value: Float64Array.from(value),
  quality: new Uint8Array(value.length),
  receivedAfterSeconds: new Float64Array(value.length),
  decimals: 1,
})
const official = valuesOf([1, 2, 3, Number.NaN, 5])

describe('the difference in words', () => {
  const said = (sandbox: readonly number[]) =>
    differenceSentences(compareSeries(official, valuesOf(sandbox), 60), series, 'UTC')

  it('tells mean, range, what is lost and gained, and how well all of it is known', () => {
    expect(said([2, 2, 3.5, 4, Number.NaN])).toEqual([
      '2 of 3 readings differ. Sandbox less official: mean +0.5 mm, from 0.0 mm (1 Jan 01:00) to +1.0 mm (1 Jan 00:00), standard deviation 0.5 mm.',
      '1 reading loses its value in the sandbox.',
      '1 reading that has no value officially has one in the sandbox.',
      'Both are made from the same readings, whose noise cancels: the difference is known to ± 0.08 mm (95 %, rounding). Each value itself is known to ± 0.98 mm (95 %), officially; a smaller difference does not tell which is nearer the truth.',
    ])
  })

  it('says when nothing differs, and when nothing can be compared', () => {
    expect(said([1, 2, 3, Number.NaN, 5])).toEqual(['All 4 readings are as they are officially.'])
    expect(said([Number.NaN, Number.NaN, Number.NaN, Number.NaN, Number.NaN])[0]).toContain(
      'nothing can be compared',
    )
  })
})

it('a clock that moves stamps is compared on the straight line between them, never across a gap', () => {
  const shifted = {
    ...valuesOf([1, 2, 3]),
    atEpochMs: Float64Array.from([0.5 * hourMs, 1.5 * hourMs, 9 * hourMs]),
  }
  const { difference } = compareSeries(official, shifted, 60)
  expect([...difference]).toEqual([Number.NaN, 1.5 - 2, Number.NaN, Number.NaN, Number.NaN])
})

it('what becomes of a level is told with both sides', () => {
  const level = levelFor({ id: 'L1' })
  const episode = {
    level: 'L1',
    crossedAtEpochMs: 0,
    heldAtEpochMs: 0,
    leftAtEpochMs: null,
    leftBecause: null,
    knownAtEpochMs: 0,
    peakValue: 1,
    peakAtEpochMs: 0,
  } as const
  const now = { level, official: [], sandbox: [episode], fate: 'now-reached' } as const
  expect(fateSentence(now, 'Level 1', 'UTC')).toBe(
    'Level 1 (L1) would have been reached: from 1 Jan 00:00 on. Officially it was not.',
  )
  expect(episodesText([], 'UTC')).toBe('not reached')
  expect(episodesText(Array(5).fill(episode), 'UTC')).toContain('2 times before, then')
})

it('the figure breaks where a value is missing, and its table has the days', () => {
  const sandbox = valuesOf([2, 3, 4, 5, 6])
  const figure = whatIfDifferenceFigure(
    { comparison: compareSeries(official, sandbox, 60), official, sandbox },
    series,
    { title: 'T', selected: null, timeZone: 'UTC' },
  )
  expect(figure.curves[0]?.places).toEqual([[0, 1], [hourMs, 1], [2 * hourMs, 1], null, [4 * hourMs, 1]])
  expect(figure.table.rows).toEqual([['1970-01-01', '2.8', '4.0', '1.0']])
})

it('the surface takes the last value of the sandbox at or before the clock, and leaves all others', () => {
  const row = (one: number, other: number) => Float64Array.from([one, other])
  const columns = columnsOf(2, {
    series: row(1, 2),
    last_at_ms: row(4 * hourMs, 4 * hourMs),
    value: row(5, 7),
    quality: row(0, 0),
    since_at_ms: row(Number.NaN, Number.NaN),
    since_value: row(Number.NaN, Number.NaN),
  })
  const moved = new Map([[1, valuesOf([2, 3, 4, Number.NaN, 6])]])
  const made = withSandboxValues(columns, moved, 3.5 * hourMs)
  expect([...made.number('value')]).toEqual([4, 7])
  expect([...made.number('last_at_ms')]).toEqual([2 * hourMs, 4 * hourMs])
  expect([...columns.number('value')]).toEqual([5, 7])
})

it('panes of the same points have one frame, north up, and labels that stand apart', () => {
  const ground = {
    points: [
      { id: 'A', eastingMetres: 0, northingMetres: 0 },
      { id: 'B', eastingMetres: 84, northingMetres: 40 },
    ],
    barriers: [],
    moved: new Set(['B']),
  }
  const line = (level: number, northing: number) => ({
    level,
    certain: true,
    points: [0, 40, 84].map((easting) => [easting, northing] as const),
  })
  const pane = surfacePane({ lines: [line(1, 10), line(2, 10.5), line(3, 30)] }, ground)
  const empty = surfacePane(null, ground)
  expect([pane.widthMetres, pane.heightMetres]).toEqual([100, 56])
  expect([empty.widthMetres, empty.heightMetres]).toEqual([100, 56])
  expect(pane.points).toEqual([
    { id: 'A', x: 8, y: 48, isMoved: false },
    { id: 'B', x: 92, y: 8, isMoved: true },
  ])
  expect(pane.labels.map(({ text }) => text)).toEqual(['1', '3'])
})
