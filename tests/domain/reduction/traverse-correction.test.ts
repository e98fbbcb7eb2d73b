import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { calibrationAt } from '#domain/reduction/calibration-in-force.ts'
import { correctTraverse, type TraverseCorrection } from '#domain/reduction/correct-traverse.ts'
import { readCalibrations } from '#domain/reduction/read-calibrations.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'
import { reviewTraverse, type TraversedCasing } from '#domain/reduction/review-traverse.ts'
import { instrumentRow, pointRow, sensorRow } from './sample-bundles.ts'

const count = 8
const points = Array.from({ length: count }, (_, at) => `T${at}`)
const faces = ['face-a0', 'face-a180', 'face-b0', 'face-b180'] as const
const surveyAt = Date.UTC(2027, 4, 3, 9)
const minute = 60_000

const model = {
  sensorBarometers: [],
  instruments: [instrumentRow('IN', 'traversed-inclinometer', 'toe')],
  points: [pointRow('IN', 'IN', 0), ...points.map((id, at) => pointRow(id, 'IN', 1 + 2 * at))],
  sensors: points.flatMap((id) => faces.map((face) => sensorRow(id, face, 'mm'))),
  calibrations: points.flatMap((id) =>
    faces.map((face) => ({
      id: `CC-${id}-${face}/1`,
      sensor: `${id}/${face}`,
      version: 1,
      validFrom: 0,
      certificate: null,
      calibratedAt: null,
      dueAt: null,
      standardUncertainty: 0.1,
      author: 'A. Author',
      reason: 'as installed',
    })),
  ),
  calibrationSteps: points.flatMap((id) =>
    faces.map((face) => ({
      calibration: `CC-${id}-${face}/1`,
      step: 1,
      kind: 'linear' as const,
      parameters: 'factor=0.01; offset=0; unit=mm',
    })),
  ),
}

const correction = (change: Partial<TraverseCorrection> = {}): TraverseCorrection => ({
  instrument: 'IN',
  axis: 'a',
  surveyAtEpochMs: surveyAt,
  holds: 'survey',
  amounts: points.map((point, at) => ({ point, amountOffMm: 0.1 * (at + 1), standardErrorMm: 0.02 })),
  author: 'B. Author',
  reason: 'bias shift',
  ...change,
})

/** What a face reads at an instant once a correction is saved, from the raw count 1000, mm. */
function valueAfter(made: TraverseCorrection, sensor: string, atEpochMs: number): number | null {
  const next = correctTraverse(model, made)
  if (!next.ok) throw new Error(next.issues.map(({ message }) => message).join(' '))
  const read = readCalibrations({
    sensors: model.sensors,
    sensorBarometers: model.sensorBarometers,
    calibrations: [...model.calibrations, ...next.value.map(({ row }) => row)],
    calibrationSteps: [...model.calibrationSteps, ...next.value.flatMap(({ stepRows }) => stepRows)],
  })
  if (!read.ok) throw new Error('unreadable')
  const own = read.value.filter((one) => one.sensor === sensor)
  const steps = calibrationAt(own, atEpochMs)?.steps ?? []
  return reduceValue(1000, steps, { temperatureDegC: null, barometerKpa: null }).value
}

describe('a correction of a traverse', () => {
  test('takes its amount off the deviation of that survey, half a face each way, and leaves all others as they were', () => {
    const made = correction()
    const deviation = (point: string, at: number) =>
      ((valueAfter(made, `${point}/face-a0`, at) ?? 0) - (valueAfter(made, `${point}/face-a180`, at) ?? 0)) /
      2
    expect(deviation('T2', surveyAt)).toBeCloseTo(-0.3, 12)
    expect(deviation('T2', surveyAt - 1)).toBe(0)
    expect(deviation('T2', surveyAt + minute)).toBe(0)
    expect(valueAfter(made, 'T2/face-b0', surveyAt)).toBe(10)
  })

  test('holds on where it is said to', () => {
    expect(
      valueAfter(correction({ holds: 'onwards' }), 'T0/face-a0', surveyAt + 30 * 86_400_000),
    ).toBeCloseTo(9.9, 12)
  })

  test('leaves aside the point that stands for the whole casing, which carries its greatest deflection', () => {
    const whole = { ...model, points: [pointRow('IN', 'IN', 0), ...model.points] }
    expect(correctTraverse(whole, correction())).toEqual(correctTraverse(model, correction()))
    expect(correctTraverse(whole, correction()).ok).toBe(true)
  })

  test('goes on from the chain in force at the survey, not from the last that was entered', () => {
    const later = {
      ...model,
      calibrations: [
        ...model.calibrations,
        {
          ...(model.calibrations[0] as (typeof model.calibrations)[number]),
          id: 'CC-T0-face-a0/2',
          version: 2,
          validFrom: surveyAt + 30 * minute,
        },
      ],
      calibrationSteps: [
        ...model.calibrationSteps,
        {
          calibration: 'CC-T0-face-a0/2',
          step: 1,
          kind: 'linear' as const,
          parameters: 'factor=7; offset=0; unit=mm',
        },
      ],
    }
    const next = correctTraverse(later, correction())
    const rows = next.ok ? next.value.filter(({ row }) => row.sensor === 'T0/face-a0') : []
    expect(rows.map(({ row }) => [row.version, row.validFrom])).toEqual([
      [3, surveyAt],
      [4, surveyAt + minute],
    ])
    expect(rows.map(({ stepRows }) => stepRows[0]?.parameters)).toEqual([
      'factor=0.01; offset=0; unit=mm',
      'factor=0.01; offset=0; unit=mm',
    ])
  })

  test.each([
    ['an interval is missing', { amounts: correction().amounts.slice(1) }, 'intervals-unlike'],
    [
      'an interval of another casing',
      { amounts: [...correction().amounts, { point: 'X', amountOffMm: 1, standardErrorMm: 0.02 }] },
      'intervals-unlike',
    ],
    [
      'an interval stands twice',
      { amounts: [...correction().amounts, { point: 'T0', amountOffMm: 1, standardErrorMm: 0.02 }] },
      'intervals-unlike',
    ],
    [
      'nothing is taken off',
      { amounts: points.map((point) => ({ point, amountOffMm: 0, standardErrorMm: 0.02 })) },
      'correction-nil',
    ],
    ['another instrument', { instrument: 'PZ' }, 'casing-unknown'],
    ['nobody says why', { reason: ' ' }, 'reason-missing'],
    ['nobody says who', { author: '' }, 'author-missing'],
    ['it is signed as the folder signs', { author: ' Site folder' }, 'author-reserved'],
    ['before the first calibration', { surveyAtEpochMs: -5 }, 'calibration-missing'],
  ])('is refused whole where %s', (_, change, code) => {
    const made = correctTraverse(model, correction(change))
    expect(made.ok ? [] : made.issues.map((issue) => issue.code)).toContain(code)
  })
})

describe('a survey looked at', () => {
  const casing = (stillBelowMetres: number | null): TraversedCasing => ({
    intervals: points.map((point, at) => ({
      point,
      depthMetres: 1 + 2 * at,
      lengthMetres: 2,
      zeroDeviationMm: [3, 5, 9, 11, 15, 14, 12, 6][at] ?? 0,
    })),
    fixedEnd: 'toe',
    stillBelowMetres,
  })
  const amount = fc.double({ min: -5, max: 5, noNaN: true })
  const pairs = (bias: number, shift: number, moved: readonly number[]) =>
    casing(8).intervals.map(({ zeroDeviationMm }, at) => {
      const deviation = (zeroDeviationMm ?? 0) + (moved[at] ?? 0) + shift
      return { face0: deviation + bias, face180: -deviation + bias }
    })

  test('a shift taken off leaves the movement of the ground, whatever the bias of the probe', () => {
    fc.assert(
      fc.property(amount, amount, fc.array(amount, { minLength: 4, maxLength: 4 }), (bias, shift, moved) => {
        const seen = reviewTraverse(casing(8), pairs(bias, shift, moved), [])
        expect(seen.checksum?.mean).toBeCloseTo(2 * bias, 9)
        const found = seen.faults.find(({ kind }) => kind === 'bias-shift')
        expect(found?.size).toBeCloseTo(shift, 9)
        const left = (seen.intervals[0]?.deflection ?? 0) - (found?.wholeMm ?? 0)
        expect(left).toBeCloseTo(
          moved.reduce((sum, one) => sum + one, 0),
          8,
        )
      }),
      { seed: 71 },
    )
  })

  test('a probe turned on its axis is told where the other axis was read', () => {
    const cross = points.map((_, at) => ({ face0: 20 - 3 * at, face180: 3 * at - 20 }))
    const turned = casing(8).intervals.map(({ zeroDeviationMm }, at) => {
      const deviation = (zeroDeviationMm ?? 0) + 0.02 * (20 - 3 * at)
      return { face0: deviation, face180: -deviation }
    })
    const found = reviewTraverse(casing(8), turned, cross).faults.find(({ kind }) => kind === 'rotation')
    expect(found?.size).toBeCloseTo(0.02, 12)
    expect(found?.explained).toBeCloseTo(1, 12)
    expect(reviewTraverse(casing(8), turned, []).notTold.join(' ')).toContain('rotation')
  })

  test('without still ground nothing is told, and it says so', () => {
    const seen = reviewTraverse(casing(null), pairs(1, 0.4, []), [])
    expect(seen.faults).toEqual([])
    expect(seen.notTold.join(' ')).toContain('stillBelowMetres')
  })

  test('a missing face leaves no deflection beyond it and is no nought', () => {
    const read = pairs(1, 0, []).map((pair, at) => (at === 3 ? { ...pair, face180: null } : pair))
    const seen = reviewTraverse(casing(8), read, [])
    expect(seen.intervals[3]).toMatchObject({ checksum: null, deviation: null, deflection: null })
    expect(seen.intervals[0]?.deflection).toBeNull()
    expect(seen.greatestDeflectionMm).toBeNull()
    expect(seen.checksum?.count).toBe(count - 1)
  })
})
