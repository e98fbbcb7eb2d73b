import { describe, expect, test } from 'vitest'
import { groupBy } from '#domain/group-by.ts'
import { calibrationAt } from '#domain/reduction/calibration-in-force.ts'
import { correctTraverse } from '#domain/reduction/correct-traverse.ts'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import { derivedTrail } from '#domain/reduction/derived-trail.ts'
import { seriesUncertainty } from '#domain/reduction/published-uncertainty.ts'
import { readCalibrations } from '#domain/reduction/read-calibrations.ts'
import { weightedUncertainty } from '#domain/reduction/rules/rule.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { instrumentRow, pointRow, sensorRow } from './sample-bundles.ts'
import { readingOf } from './sample-readings.ts'

const points = Array.from({ length: 8 }, (_, at) => `T${at}`)
const faces = ['face-a0', 'face-a180'] as const
const surveyAt = Date.UTC(2027, 4, 3, 9)
const ofFace = 0.1

const site = {
  instruments: [instrumentRow('IN', 'traversed-inclinometer', 'toe')],
  points: [
    pointRow('IN', 'IN', 0),
    ...points.map((id, at) => ({ ...pointRow(id, 'IN', 1 + 2 * at), zeroDeviationAMm: at })),
  ],
  sensors: points.flatMap((id) => faces.map((face) => ({ ...sensorRow(id, face, 'mm'), rawUnit: 'count' }))),
  locations: [],
  strata: [],
}
const calibrated = {
  calibrations: site.sensors.map(({ id }) => ({
    id: `CC-${id}/1`,
    sensor: id,
    version: 1,
    validFrom: 0,
    certificate: null,
    calibratedAt: null,
    dueAt: null,
    standardUncertainty: ofFace,
    author: 'A. Author',
    reason: 'as installed',
  })),
  calibrationSteps: site.sensors.map(({ id }) => ({
    calibration: `CC-${id}/1`,
    step: 1,
    kind: 'linear' as const,
    parameters: 'factor=0.01; offset=0; unit=mm',
  })),
  sensorBarometers: [],
}

interface Correction {
  readonly amounts: readonly number[]
  readonly relativeError: number
}

/** The site after corrections were saved, one after the other. */
function corrected(...all: Correction[]) {
  let model: typeof site & Pick<SiteModel, 'calibrations' | 'calibrationSteps' | 'sensorBarometers'> = {
    ...site,
    ...calibrated,
  }
  for (const { amounts, relativeError } of all) {
    const made = correctTraverse(model, {
      instrument: 'IN',
      axis: 'a',
      surveyAtEpochMs: surveyAt,
      holds: 'onwards',
      amounts: points.map((point, at) => ({
        point,
        amountOffMm: amounts[at] ?? 0,
        standardErrorMm: Math.abs(amounts[at] ?? 0) * relativeError,
      })),
      author: 'B. Author',
      reason: 'a fault of the survey',
    })
    if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join(' '))
    model = {
      ...model,
      calibrations: [...model.calibrations, ...made.value.map(({ row }) => row)],
      calibrationSteps: [...model.calibrationSteps, ...made.value.flatMap(({ stepRows }) => stepRows)],
    }
  }
  const read = readCalibrations(model)
  if (!read.ok) throw new Error(read.issues.map(({ message }) => message).join(' '))
  return read.value
}

/** Standard uncertainty of a series after the survey: as the trail tells it, and as it is published. */
function told(calibrations: ReturnType<typeof corrected>, series: string) {
  const bundles = derivedBundles(site)
  if (!bundles.ok) throw new Error('no bundles')
  const bundle = bundles.value.find(({ outputs }) => outputs.some(({ id }) => id === series))
  if (!bundle) throw new Error(`no ${series}`)
  const readings = site.sensors.map(({ id }) => ({
    ...readingOf({ series: id, raw: 1000, rawUnit: 'count', unit: 'mm', atEpochMs: surveyAt }, []),
    calibration: calibrationAt(
      calibrations.filter(({ sensor }) => sensor === id),
      surveyAt,
    ),
  }))
  const published = seriesUncertainty(
    { sensors: site.sensors, sensorBarometers: [], zeroReadings: [] },
    groupBy(calibrations, ({ sensor }) => sensor),
    bundles.value,
  )(series).at(-1)
  return {
    trail: derivedTrail(bundle, series, surveyAt, readings).standardUncertainty ?? Number.NaN,
    published: published?.standardUncertainty ?? Number.NaN,
  }
}

const seeded = (seed: number) => {
  let state = seed
  return () => {
    state = (state * 48_271) % 2_147_483_647
    return state / 2_147_483_647
  }
}

/** Scatter of the sum of deviations, each of its two faces, over many draws of faces and of what each correction got wrong. */
function scatter(all: readonly Correction[], draws = 40_000): number {
  const random = seeded(11)
  const normal = () => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random())
  let squares = 0
  for (let draw = 0; draw < draws; draw++) {
    const wrong = all.map(({ relativeError }) => relativeError * normal())
    let sum = 0
    for (const at of points.keys()) {
      const off = all.reduce(
        (total, { amounts }, which) => total + (amounts[at] ?? 0) * (wrong[which] ?? 0),
        0,
      )
      sum += (ofFace * normal() - off - (ofFace * normal() + off)) / 2
    }
    squares += sum * sum
  }
  return Math.sqrt(squares / draws)
}

const shift = { amounts: points.map(() => 0.35), relativeError: 0.1 }
const turned = { amounts: [0.2, -0.1, 0.5, 0.4, -0.3, 0.2, 0.6, 0.1], relativeError: 0.2 }

describe('the error of a correction over a casing', () => {
  test('of a bias shift adds up over depth: 8 × 0.035 mm beside 0.1 mm a face', () => {
    const expected = Math.hypot((ofFace * Math.sqrt(16)) / 2, 8 * 0.035)
    const found = told(corrected(shift), 'T0/deflection')
    expect(found.trail).toBeCloseTo(expected, 9)
    expect(found.published).toBeCloseTo(expected, 9)
    // As if faces were independent it would come out at 0.21 mm instead of 0.34 mm.
    expect(found.trail).toBeGreaterThan(1.5 * Math.sqrt((16 * (ofFace ** 2 + 0.035 ** 2)) / 4))
  })
  test.each([
    ['one of changing sign', [turned]],
    ['two, one after the other, each by itself', [shift, turned]],
  ] as const)('%s is what repeated surveys would scatter by', (_, all) => {
    const found = told(corrected(...all), 'T0/deflection')
    const drawn = scatter([...all])
    expect(found.trail / drawn).toBeGreaterThan(0.985)
    expect(found.trail / drawn).toBeLessThan(1.015)
    expect(found.published).toBeCloseTo(found.trail, 9)
  })
  test('goes out of the checksum, where it stands with both signs, and is whole in a deviation', () => {
    const calibrations = corrected(shift)
    expect(told(calibrations, 'T3/checksum-a').trail).toBeCloseTo(ofFace * Math.SQRT2, 9)
    expect(told(calibrations, 'T3/deviation-a').trail).toBeCloseTo(Math.hypot(ofFace / Math.SQRT2, 0.035), 9)
  })
  test('leaves what has no correction as it was', () => {
    const members = [3, 4].map((standardUncertainty) => ({ weight: 1, standardUncertainty }))
    expect(weightedUncertainty(members)).toBe(5)
    expect(told(corrected(), 'T0/deflection').trail).toBeCloseTo((ofFace * Math.sqrt(16)) / 2, 12)
  })
})
