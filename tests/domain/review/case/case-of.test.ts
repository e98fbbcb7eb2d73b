import { expect, test } from 'vitest'
import type { Series } from '#contract/site-document.ts'
import { reviewCaseOf } from '#domain/review/case/case-of.ts'
import { companionsOf } from '#domain/review/case/companions.ts'
import { columnsOf } from '../../../../web/engine/columns.ts'
import { knownHours, knownReadings } from '../../../../web/queries/review-readings.ts'
import { reviewNetwork, reviewSite } from '../../../web/derived/review/review-site.ts'
import { presentEpochMs } from '../../../web/state/small-site.ts'

const hourMs = 3_600_000
const asOfEpochMs = presentEpochMs
const fromEpochMs = asOfEpochMs - 10 * 24 * hourMs
const site = reviewSite()
const network = reviewNetwork(site)
const subject = site.series[0] as Series
const companions = companionsOf(site, subject, { network, barriers: [], waterUnitWeightKnPerM3: 9.81 })
const row = (...values: number[]) => Float64Array.from(values)
const read = {
  hours: columnsOf(3, {
    series: row(3, 3, 7),
    at_ms: row(fromEpochMs, fromEpochMs + hourMs, fromEpochMs),
    value: row(40, 41, 2),
  }),
  readings: columnsOf(4, {
    at_ms: row(fromEpochMs, fromEpochMs + hourMs, fromEpochMs + 30 * hourMs, asOfEpochMs - hourMs),
    value: row(10, 11, 12, 13),
    // The third came days later: it was not known in time.
    received_after_s: row(0, 60, 300_000, 0),
  }),
}
const around = { network, battery: null, beside: [] }
const made = (document = site) =>
  reviewCaseOf(document, { subject, fromEpochMs, asOfEpochMs, companions }, read, around)

test('both questions leave out what was received after the instant, and what stands at it or later', () => {
  for (const { sql, params } of [
    knownHours({ series: [1], fromEpochMs, asOfEpochMs }),
    knownReadings({ series: 1, fromEpochMs, asOfEpochMs }),
  ]) {
    expect(sql).toContain('coalesce(received_after_s, 0)::bigint <= ?')
    expect(sql).toContain('"at" < epoch_ms(?)')
    expect(params).toEqual([[1], fromEpochMs, asOfEpochMs, asOfEpochMs])
  }
})

test('a neighbour without a reading is none, one read by hand comes in the unit of the subject', () => {
  const reviewed = made()
  expect(reviewed.subject.values).toEqual([10, 11, 12, 13])
  expect(reviewed.same.map(({ series }) => series)).toEqual(['P-3/pore-pressure'])
  expect(reviewed.byHand[0]).toMatchObject({
    unit: 'kPa',
    values: [2 * 9.81],
    standardUncertainty: 0.01 * 9.81,
  })
  expect(made().range).toBeNull()
  const ranged = { ...subject, range: { low: -50, high: 350 } }
  expect(
    reviewCaseOf(site, { subject: ranged, fromEpochMs, asOfEpochMs, companions }, read, around).range,
  ).toEqual({ low: -50, high: 350 })
  expect(reviewed).toMatchObject({ resolution: 0.01, lateAfterMinutes: 180, airStandsInValues: null })
})

test('the longest silence is what was not known in time, although it came later', () => {
  expect(made().logger?.longestSilence).toEqual({
    fromEpochMs: fromEpochMs + hourMs,
    untilEpochMs: asOfEpochMs - hourMs,
  })
  expect(made().logger).toMatchObject({ logger: 'L-1', due: 240, inTime: 120, later: 120 })
})

test('notes after the instant are not known; those of a fortnight before the stretch are, with their distance', () => {
  const diary = (at: number, text: string) => ({
    at,
    kind: 'visit',
    text,
    eastingMetres: 500_010,
    northingMetres: 310_000,
  })
  const entries = [
    diary(asOfEpochMs + hourMs, 'later'),
    diary(fromEpochMs - 10 * 24 * hourMs, 'before'),
    diary(fromEpochMs - 20 * 24 * hourMs, 'long before'),
  ]
  const { notes } = made({ ...site, diary: entries as unknown as typeof site.diary })
  expect(notes.map(({ text }) => text)).toEqual(['before'])
  expect(notes[0]?.distanceMetres).toBeCloseTo(10, 6)
})

test('without a network document nothing is said of the logger', () => {
  const reviewed = reviewCaseOf(site, { subject, fromEpochMs, asOfEpochMs, companions }, read, {
    ...around,
    network: null,
  })
  expect(reviewed.logger).toBeNull()
})

test('readings that somebody had rejected by then are not held against it, and that is told', () => {
  const verdict = (verdict: string, at: number) => ({
    id: 'V-1',
    series: 'P-3/pore-pressure',
    verdict,
    fromAt: fromEpochMs,
    untilAt: null,
    at,
    author: 'A. Judge',
  })
  const judged = (one: object) => made({ ...site, verdicts: [one] as unknown as typeof site.verdicts })
  const rejected = judged(verdict('rejected', asOfEpochMs - hourMs))
  expect(rejected.same).toEqual([])
  expect(rejected.foundBeside).toMatchObject([{ series: 'P-3/pore-pressure', verdict: 'rejected' }])
  expect(judged(verdict('doubtful', asOfEpochMs - hourMs)).same).toHaveLength(1)
  expect(judged(verdict('rejected', asOfEpochMs + hourMs)).same).toHaveLength(1)
})

test('a logger beside of which nothing is known is not counted as one that went on', () => {
  const beside = (loggers: readonly string[]) =>
    reviewCaseOf(site, { subject, fromEpochMs, asOfEpochMs, companions }, read, {
      ...around,
      beside: loggers,
    })
  expect(beside(['NOT-KNOWN', 'HAND']).logger?.silentBeside).toEqual({ silent: 0, of: 0, loggers: [] })
})

test('where the network is not told to whoever looks, what is read by hand still counts', () => {
  const wiredTo = Object.fromEntries(
    site.series.map(({ id }) => [id, id.startsWith('W-') ? 'HAND / well' : 'L-1 / 1']),
  )
  const around = { network: null, barriers: [], waterUnitWeightKnPerM3: 9.81 }
  const found = companionsOf({ ...site, wiredTo }, subject, around)
  expect(found.byHand.map(({ series }) => series.id)).toEqual(
    companions.byHand.map(({ series }) => series.id),
  )
  expect(found.logger).toBe('L-1')
})

test('a point taken out of use by then is known to be', () => {
  const retired = (retiredAtEpochMs: number) =>
    made({
      ...site,
      points: site.points.map((one) => (one.id === 'P-1' ? { ...one, retiredAtEpochMs } : one)),
    })
  expect(retired(asOfEpochMs - hourMs).outOfUseSinceEpochMs).toBe(asOfEpochMs - hourMs)
  expect(retired(asOfEpochMs + hourMs).outOfUseSinceEpochMs).toBeNull()
  expect(made().outOfUseSinceEpochMs).toBeNull()
})

test('so is what went out of use with its instrument, or with a place that it needs', () => {
  const instrument = site.points.find(({ id }) => id === 'P-1')?.instrument
  const retiredAtEpochMs = asOfEpochMs - hourMs
  const instruments = site.instruments.map((one) =>
    one.id === instrument ? { ...one, retiredAtEpochMs } : one,
  )
  expect(made({ ...site, instruments }).outOfUseSinceEpochMs).toBe(retiredAtEpochMs)
})
