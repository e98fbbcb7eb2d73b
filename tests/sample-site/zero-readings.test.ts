import { expect, it } from 'vitest'
import { baselinesOfSensor } from '#domain/baseline/baselines-of-sensor.ts'
import { readSampleSite } from './read-sample-site.ts'

const site = readSampleSite()
const piezometers = site.sensors.filter(({ measure }) => measure === 'pore-pressure')

it.each(piezometers.map(({ id }) => id))('%s was read at zero, which its calibration gives as zero', (id) => {
  const [held, ...others] = baselinesOfSensor(site, id)
  expect(others).toEqual([])
  const baseline = held?.baseline
  expect(baseline?.count).toBe(10)
  // Written with a scatter of 0.12 kPa: that of ten lies within 0.06 to 0.2 and of their mean below 0.15.
  expect(baseline?.repeatability).toBeGreaterThan(0.06)
  expect(baseline?.repeatability).toBeLessThan(0.2)
  expect(Math.abs(baseline?.mean ?? Number.NaN)).toBeLessThan(0.15)
})

it('they were taken before the calibration holds', () => {
  const validFrom = new Map(site.calibrations.map((row) => [row.id, row.validFrom]))
  for (const { calibration, at } of site.zeroReadings)
    expect(at).toBeLessThan(validFrom.get(calibration) ?? Number.NaN)
})
