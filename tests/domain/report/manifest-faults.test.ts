import { expect, test } from 'vitest'
import { followerOf, manifestFaults } from '#domain/report/manifest-faults.ts'
import type { ReportManifest } from '#domain/report/report.ts'
import { manifestFor } from '../../support/report-manifest.ts'

const cutOffEpochMs = manifestFor().cutOffEpochMs
const around = { site: 'small-quay', timeZone: 'UTC', frozen: { cutOffEpochMs }, last: null }
const codes = (changed: Partial<ReportManifest>, surroundings = {}) =>
  manifestFaults(manifestFor(changed), { ...around, ...surroundings }).map(({ code }) => code)

test('a report without a statement, or without whose it is, is not issued', () => {
  expect(codes({})).toEqual([])
  expect(codes({ statement: { text: ' \n', author: '', atEpochMs: 0 } })).toEqual([
    'statement-missing',
    'author-missing',
  ])
})

test('a period that ends after the cut-off would read as silence and is refused', () => {
  expect(codes({ untilEpochMs: cutOffEpochMs })).toEqual([])
  expect(codes({ untilEpochMs: cutOffEpochMs + 1 })).toEqual(['ends-after-cut-off'])
  expect(codes({ untilEpochMs: manifestFor().fromEpochMs })).toEqual(['ends-before-begin'])
})

test('its data are those frozen at this site with this cut-off', () => {
  expect(codes({}, { frozen: null })).toEqual(['frozen-set-unknown'])
  expect(codes({}, { frozen: { cutOffEpochMs: cutOffEpochMs + 1000 } })).toEqual(['other-cut-off'])
  expect(codes({ site: 'other-quay' })).toEqual(['other-site'])
})

test('changes are counted from the issue before of its kind', () => {
  const last = { manifest: manifestFor() }
  expect(followerOf(last, 'monthly')).toEqual({
    kind: 'monthly',
    number: 2,
    previousNumber: 1,
    previousFrozenSet: '0123456789abcdef',
    previousUntilEpochMs: manifestFor().untilEpochMs,
  })
  const follows = { number: 2, previousNumber: 1, previousUntilEpochMs: manifestFor().untilEpochMs }
  expect(codes({ ...follows, previousFrozenSet: '0123456789abcdef' }, { last })).toEqual([])
  expect(codes({ ...follows, previousFrozenSet: null }, { last })).toEqual(['other-previous'])
})
