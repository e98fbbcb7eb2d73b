import { expect, test } from 'vitest'
import { outOfUseSince, type SiteWithEnds, seriesEnds } from '#domain/site/series-ends.ts'

const inUse = { retiredAtEpochMs: null }
/** A strut of two gauges that makes a force, and a mark beside it. */
const site: SiteWithEnds = {
  series: [
    { series: 1, point: 'ST-1a' },
    { series: 2, point: 'ST-1b' },
    { series: 3, point: 'ST-1' },
    { series: 4, point: 'SP-1', endedAtEpochMs: 40 },
    { series: 5, point: 'SP-2' },
  ],
  points: [
    { id: 'ST-1a', instrument: 'ST-1', retiredAtEpochMs: 10 },
    { id: 'ST-1b', instrument: 'ST-1', retiredAtEpochMs: 20 },
    { id: 'SP-1', instrument: 'SP-1', ...inUse },
    { id: 'SP-2', instrument: 'SP-2', ...inUse },
  ],
  instruments: [
    { id: 'ST-1', points: ['ST-1a', 'ST-1b'], ...inUse },
    { id: 'SP-1', points: ['SP-1'], ...inUse },
    { id: 'SP-2', points: ['SP-2'], ...inUse },
  ],
}

test('a series ends with its point, with a place it needs, and what a whole makes with the last of its points', () => {
  expect([...seriesEnds(site)]).toEqual([
    [1, 10],
    [2, 20],
    [3, 20],
    [4, 40],
  ])
})

test('all that an instrument has ends with it, but not later than it had', () => {
  const retired = {
    ...site,
    instruments: site.instruments.map((one) => (one.id === 'ST-1' ? { ...one, retiredAtEpochMs: 15 } : one)),
  }
  expect([1, 2, 3].map((one) => seriesEnds(retired).get(one))).toEqual([10, 15, 15])
})

test('is out of use from that instant on', () => {
  const of = (series: number, atEpochMs: number) => outOfUseSince(site, { series }, atEpochMs)
  expect([of(4, 39), of(4, 40), of(4, 41), of(5, 1e9)]).toEqual([null, 40, 40, null])
})
