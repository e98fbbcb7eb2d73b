import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { nextCalibration } from '#domain/reduction/draft-calibration.ts'
import { draftCorrection } from '#domain/reduction/draft-correction.ts'
import { checksumSpread } from '#domain/reduction/face-checksum.ts'
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
  const model = {
    calibrations: [before],
    calibrationSteps: steps,
    sensors: [sensor],
    sensorBarometers: [],
  }
  const entry = {
    validFromEpochMs: Date.UTC(2027, 4, 3),
    author: 'B. Author',
    reason: 'bias shift of 0.5 mm in the survey of 3 May',
  }
  const draft = draftCorrection(model, sensor.id, { amountOff: 0.25, standardError: 0 }, entry)

  test('is a draft of the next version, dated, with its author and reason', () => {
    expect(draft).toMatchObject({ sensor: sensor.id, follows: 2, certificate: 'C 12', ...entry })
    expect(draftCorrection(model, 'T2/face-a0', { amountOff: 0.25, standardError: 0 }, entry)).toBeNull()
  })

  test('is taken as a calibration, and takes its amount off the value', () => {
    if (draft === null) throw new Error('no draft')
    const next = nextCalibration(model, draft)
    if (!next.ok) throw new Error(JSON.stringify(next.issues))
    expect([next.value.row.id, next.value.row.version]).toEqual(['CC-9/3', 3])
    const none = { temperatureDegC: null, barometerKpa: null }
    expect(reduceValue(800, next.value.calibration.steps, none).value).toBe(7.75)
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
