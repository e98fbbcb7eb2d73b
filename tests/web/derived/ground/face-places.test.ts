import { expect, test } from 'vitest'
import type { Stage } from '#domain/site/tables.ts'
import {
  assumedFaces,
  firstStripMetres,
  settlementsByFace,
  settlementsSince,
} from '../../../../web/derived/ground/face-places.ts'

const line = { startChainageMetres: 100, lengthMetres: 220 }
const stage = (startsAt: number, endsAt: number | null) => ({ startsAt, endsAt }) as Stage

test('the face is assumed at the ends of the line at the ends of the stage that begins with the tunnel', () => {
  expect(assumedFaces(line, 5, [stage(1, 4), stage(5, 27)])).toEqual([
    { atEpochMs: 5, chainageMetres: 100 },
    { atEpochMs: 27, chainageMetres: 320 },
  ])
  expect(assumedFaces(line, 5, [stage(5, null)])).toHaveLength(1)
  expect(assumedFaces(line, 6, [stage(5, 27)])).toHaveLength(1)
  expect(assumedFaces(line, null, [stage(5, 27)])).toEqual([])
})

test('a point is ahead of the face until it is passed, whichever way the chainage runs', () => {
  const since = { atEpochMs: [0, 10, 20, 30], settlementMm: [0, 1, 4, 5] }
  const ahead = (from: number, to: number, at: number) =>
    settlementsByFace({ id: 'P', chainageMetres: at }, since, [
      { atEpochMs: 20, chainageMetres: to },
      { atEpochMs: 0, chainageMetres: from },
    ]).map(({ aheadOfFaceMetres }) => aheadOfFaceMetres)
  expect(ahead(0, 40, 30)).toEqual([30, 10, -10, null])
  expect(ahead(40, 0, 10)).toEqual([30, 10, -10, null])
})

test('settlement is counted from the last reading at or before the start', () => {
  const readings = { atEpochMs: [1, 3, 6, 8, 9], values: [2, 2.5, 4, null, 7] }
  expect(settlementsSince(readings, 5)).toEqual({ atEpochMs: [5, 6, 9], settlementMm: [0, 1.5, 4.5] })
  expect(settlementsSince(readings, 0)).toBeNull()
})

test('strips have a chainage in the middle of one, and none begins before the line', () => {
  expect(firstStripMetres(0, 119, 12)).toBe(5)
  expect(firstStripMetres(100, 119, 12)).toBe(101)
  expect((119 - 6 - firstStripMetres(0, 119, 12)) % 12).toBe(0)
})
