import { describe, expect, it } from 'vitest'
import { quality } from '#domain/reduction/quality.ts'
import { readCalibrations } from '#domain/reduction/read-calibrations.ts'
import { runChain } from '#domain/reduction/run-chain.ts'
import { invertCalibration } from '../../../sample-site/logging/invert-calibration.ts'
import { readRecords } from '../../../sample-site/logging/read-records.ts'
import { readSampleSite, sampleFolder } from '../read-sample-site.ts'

const site = readSampleSite()
const outcome = readCalibrations(site)
const calibrations = outcome.ok ? outcome.value : []
const { chains } = readRecords(sampleFolder)

describe('invertCalibration', () => {
  it.each([
    [0.2, 7.31, 99.2],
    [0.5, 12.9, 101.3],
    [0.8, 31.5, 103.1],
  ])('undoes every calibration of the site at %d of its range', (share, temperatureDegC, barometerKpa) => {
    expect(calibrations.length).toBeGreaterThan(400)
    for (const { sensor, version, steps, id } of calibrations) {
      const row = site.sensors.find((candidate) => candidate.id === sensor)
      const low = row?.rangeLow ?? 0
      const value = low + share * ((row?.rangeHigh ?? 1) - low)
      const chain = chains.get(sensor)?.[version - 1]
      if (!chain) throw new Error(`${id} is missing from the records`)
      const raw = invertCalibration(chain)(value, temperatureDegC, barometerKpa)
      const { value: again, quality: bits } = runChain(raw, steps, { temperatureDegC, barometerKpa })
      // The tiltmeters' stated range of ±3° goes beyond what their loops of ±2° can say.
      if ((bits & quality.sensorFault) !== 0 && sensor.endsWith('/tilt')) continue
      expect(Math.abs((again ?? Number.NaN) - value), id).toBeLessThan(1e-8 * Math.max(1, Math.abs(value)))
    }
  })
})
