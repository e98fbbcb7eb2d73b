import { expect, test } from 'vitest'
import { zeroReadingsLeft } from '#domain/reduction/zero-readings-left.ts'
import type { SiteModel } from '#domain/site/site.ts'

const sensor = 'PZ-1/pore-pressure'
const calibration = (version: number, validFrom: number) => ({
  id: `C/${version}`,
  sensor,
  version,
  validFrom,
})
const zero = (of: string, at: number) => ({ calibration: of, at })
const site = {
  calibrations: [calibration(1, 0), calibration(2, 100), { ...calibration(3, 50), sensor: 'other' }],
  zeroReadings: [zero('C/1', 1), zero('C/2', 101), zero('C/2', 102), zero('C/3', 50)],
} as unknown as SiteModel

test('names how many zero readings the version in force leaves behind', () => {
  expect(zeroReadingsLeft(site, calibration(4, 150))).toMatch(/^2 zero readings of C\/2 stay .* for C\/4\./)
  expect(zeroReadingsLeft(site, calibration(4, 100))).toMatch(/^2 zero readings of C\/2 stay/)
  expect(zeroReadingsLeft(site, calibration(4, 99))).toMatch(/^1 zero reading of C\/1 stays .* is not taken/)
  expect(zeroReadingsLeft(site, calibration(4, -1))).toMatch(/of C\/2/)
})

test('says nothing where there is nothing to leave', () => {
  expect(zeroReadingsLeft({ ...site, zeroReadings: [] }, calibration(4, 150))).toBe(null)
  expect(zeroReadingsLeft(site, { ...calibration(1, 0), sensor: 'new' })).toBe(null)
})
