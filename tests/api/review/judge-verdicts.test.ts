import { expect, test } from 'vitest'
import type { Verdict } from '#domain/site/tables.ts'
import { mostReadings } from '../../../api/review/judge-verdict.ts'
import { judgeVerdicts } from '../../../api/review/judge-verdicts.ts'
import type { PublishedSlices } from '../../../api/review/published-slices.ts'
import { reviewNetwork, reviewSite } from '../../web/derived/review/review-site.ts'
import { presentEpochMs } from '../../web/state/small-site.ts'

const site = reviewSite()
const dayMs = 86_400_000
const [first, second] = ['P-1/pore-pressure', 'P-3/pore-pressure'] as const
const verdict = (id: string, series: string): Verdict => ({
  ...{ id, series, verdict: 'accepted', author: 'A. Reed', reason: 'r', alternatives: 'none' },
  ...{ fromAt: presentEpochMs - 20 * dayMs, untilAt: null, at: presentEpochMs - 12 * dayMs },
})
const both = [verdict('VE-1', first), verdict('VE-2', second)]

/** Answers as many even readings as an answer may have, of whatever is asked. */
function slicesOf(rowsOf: (series: readonly number[]) => number): PublishedSlices & { asked: string[] } {
  const asked: string[] = []
  return {
    asked,
    async ask({ sql, params }) {
      asked.push(sql)
      const series = params[0] as readonly number[]
      const most = Number(/limit (\d+)$/.exec(sql)?.[1] ?? Number.POSITIVE_INFINITY)
      const rows = Math.min(most, rowsOf(series))
      const columns: Record<string, (row: number) => number> = {
        series: () => series[0] ?? 0,
        at_ms: (row) => presentEpochMs - (rows - row) * 60_000,
        value: () => 80,
        received_after_s: () => 0,
      }
      return {
        rows,
        number: (name) => Float64Array.from({ length: rows }, (_, row) => columns[name]?.(row) ?? Number.NaN),
      }
    },
    close() {},
  }
}
const judge = (slices: PublishedSlices) =>
  judgeVerdicts(site, both, reviewNetwork(site), presentEpochMs, slices)

test('a verdict with more readings than are taken into memory is not judged, and says so; the next one is', async () => {
  const number = site.series.find(({ id }) => id === first)?.series ?? -1
  const { verdicts, unjudged } = await judge(
    slicesOf((series) => (series.length === 1 && series[0] === number ? 5 * mostReadings : 500)),
  )
  expect(verdicts).toEqual([])
  expect(unjudged).toEqual([
    {
      ...{ verdict: 'VE-1', series: first, why: 'too-many' },
      reason: `It would have to be held against more than ${mostReadings} readings or hourly means at once.`,
    },
  ])
})

test('as many hourly means of the series beside it are as much', async () => {
  const { unjudged } = await judge(slicesOf((series) => (series.length > 1 ? 5 * mostReadings : 500)))
  expect(unjudged.map(({ verdict, why }) => [verdict, why])).toEqual([
    ['VE-1', 'too-many'],
    ['VE-2', 'too-many'],
  ])
})

test('a verdict that fails is told with the cause, and the others are judged', async () => {
  const slices = slicesOf(() => 500)
  const failing: PublishedSlices = {
    ...slices,
    ask: async (question) => {
      if (slices.asked.length === 0) {
        slices.asked.push('failed')
        throw new Error('the slice cannot be read')
      }
      return slices.ask(question)
    },
  }
  const { unjudged } = await judge(failing)
  expect(unjudged).toEqual([
    {
      ...{ verdict: 'VE-1', series: first, why: 'failed' },
      reason: 'Holding it against what was published failed: the slice cannot be read',
    },
  ])
})
