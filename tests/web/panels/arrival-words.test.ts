import { beforeEach, expect, test } from 'vitest'
import { arrivalWords, describeState } from '../../../web/panels/describe-point.ts'
import { showSite, siteDocument } from '../../../web/state/site-document.ts'
import { presentEpochMs, smallSite, state } from '../state/small-site.ts'

const hourMs = 3_600_000
const later = {
  measuredAtEpochMs: presentEpochMs - hourMs,
  receivedAtEpochMs: presentEpochMs + 24 * hourMs,
  knownAtEpochMs: presentEpochMs - 9 * hourMs,
}
const at = (hours: number) => state(1, { atEpochMs: presentEpochMs - hours * hourMs })

beforeEach(() => {
  showSite(smallSite())
})

test('whether the value shown had come, or only a newer one had not', () => {
  expect(arrivalWords(later, at(1))).toMatch(/^measured by then, arrived /)
  expect(arrivalWords(later, at(2))).toMatch(/^measured by then, came later; that of .* arrived /)
  expect(arrivalWords(later, at(9))).toMatch(/^newer value of .* arrived .*, does not count here$/)
  expect(arrivalWords({ ...later, knownAtEpochMs: null }, at(9))).toMatch(/^measured by then/)
  expect(arrivalWords(later, at(1), 'short')).toMatch(/^arrived /)
  expect(arrivalWords(later, at(9), 'short')).toMatch(/^newer arrived /)
})

test('a series of which nothing had come says so, and not that it was never read', () => {
  const series = siteDocument()?.series[0]
  if (!series) throw new Error('no series')
  expect(describeState(series, undefined, presentEpochMs, [], later)).toMatch(
    /^No reading received for long · newer value of /,
  )
  expect(describeState(series, undefined, presentEpochMs, [])).toBe('No reading yet')
})
