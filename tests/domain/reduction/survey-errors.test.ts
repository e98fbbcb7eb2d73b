import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { correctedCalibration } from '#domain/reduction/corrected-calibration.ts'
import { checksumSpread } from '#domain/reduction/face-checksum.ts'
import { readCalibrations } from '#domain/reduction/read-calibrations.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'
import {
  biasShiftShape,
  depthShape,
  errorOf,
  findSurveyError,
  rotationShape,
} from '#domain/reduction/survey-errors.ts'
import { sensorRow } from './sample-bundles.ts'

const amount = fc.double({ min: -20, max: 20, noNaN: true })
const still = [4, 5, 6, 7]

describe('a fault of a traverse', () => {
  const shapes = [
    ['bias shift', biasShiftShape(8)],
    ['rotation', rotationShape([3, 9, 2, -4, 8, 12, 5, 7])],
    ['depth error', depthShape([0.02, 0.03, 0.02, 0.05, 0.06, 0.08, 0.03, 0.02, 0.07])],
  ] as const

  test.each(shapes)('%s is found from still intervals, however the ground above has moved', (_, shape) => {
    fc.assert(
      fc.property(amount, fc.array(amount, { minLength: 4, maxLength: 4 }), (size, moved) => {
        const changes = errorOf(shape, size).map((error, at) => error + (moved[at] ?? 0))
        const found = findSurveyError(shape, changes, still)
        expect(found.ok && found.value.size).toBeCloseTo(size, 9)
        expect(found.ok && found.value.intervals).toBe(4)
      }),
      { seed: 61 },
    )
  })

  test('is not told from two intervals, from silent ones or where its shape is nil', () => {
    const shape = biasShiftShape(8)
    expect(findSurveyError(shape, Array(8).fill(1), [6, 7]).ok).toBe(false)
    expect(findSurveyError(shape, [1, 1, 1, 1, 1, 1, null, null], [5, 6, 7]).ok).toBe(false)
    expect(findSurveyError(depthShape(Array(9).fill(0.1)), Array(8).fill(1), still).ok).toBe(false)
  })

  test('a straight casing, however inclined, has no depth error', () => {
    expect(errorOf(depthShape(Array(9).fill(0.1)), 50)).toEqual(Array(8).fill(0))
  })
})

describe('its correction', () => {
  const sensor = sensorRow('T1', 'face-a0', 'mm')
  const before = {
    id: 'CC-9/2',
    sensor: sensor.id,
    version: 2,
    validFrom: 0,
    certificate: 'C 12',
    calibratedAt: null,
    dueAt: null,
    standardUncertainty: 0.1,
    author: 'A. Author',
    reason: 'new probe',
  }
  const steps = [
    { calibration: 'CC-9/2', step: 1, kind: 'linear' as const, parameters: 'factor=0.01;offset=0;unit=mm' },
  ]
  const made = correctedCalibration(before, steps, 0.25, {
    validFrom: 1000,
    author: 'B. Author',
    reason: 'bias shift of 0.5 mm in the survey of 3 May',
  })

  test('is the next version of the calibration, dated, with its author and reason', () => {
    expect(made.calibration).toEqual({
      ...before,
      id: 'CC-9/3',
      version: 3,
      validFrom: 1000,
      author: 'B. Author',
      reason: 'bias shift of 0.5 mm in the survey of 3 May',
    })
  })

  test('can be computed, and takes its amount off the value', () => {
    const read = readCalibrations({
      calibrations: [before, made.calibration],
      calibrationSteps: [...steps, ...made.steps],
      sensors: [sensor],
    })
    if (!read.ok) throw new Error(JSON.stringify(read.issues))
    const values = read.value.map(
      (one) => reduceValue(800, one.steps, { temperatureDegC: null, barometerKpa: null }).value,
    )
    expect(values).toEqual([8, 7.75])
  })
})

test('a checksum spread leaves out depths at which a face is missing', () => {
  const pairs = [
    { face0: 10, face180: -8 },
    { face0: 12, face180: -8 },
    { face0: 99, face180: null },
  ]
  expect(checksumSpread(pairs)).toEqual({ mean: 3, standardDeviation: Math.SQRT2, count: 2 })
  expect(checksumSpread(pairs.slice(1))).toBeNull()
})
