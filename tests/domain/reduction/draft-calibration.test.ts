import { describe, expect, it } from 'vitest'
import { type CalibrationDraft, nextCalibration } from '#domain/reduction/draft-calibration.ts'
import { readSampleSite } from '../../sample-site/read-sample-site.ts'

const model = readSampleSite()
const sensor = 'PZ-01A/pore-pressure'
const row = model.calibrations.findLast((one) => one.sensor === sensor)
if (!row) throw new Error(`${sensor} has no calibration`)

const draft: CalibrationDraft = {
  sensor,
  follows: row.version,
  validFromEpochMs: Date.UTC(2027, 4, 1),
  certificate: 'SQ-101/B',
  calibratedAtEpochMs: Date.UTC(2027, 3, 20),
  dueAtEpochMs: Date.UTC(2028, 3, 20),
  standardUncertainty: 0.2,
  steps: model.calibrationSteps
    .filter(({ calibration }) => calibration === row.id)
    .map(({ kind, parameters }) => ({ kind, parameters: parameters ?? '' })),
  author: 'A. Tester',
  reason: 'sensor calibrated again',
}
const refused = (change: Partial<CalibrationDraft>) => {
  const next = nextCalibration(model, { ...draft, ...change })
  return next.ok ? [] : next.issues
}

describe('a draft becomes the next version', () => {
  it('with the next number, the name carried on, and its steps in order', () => {
    const next = nextCalibration(model, draft)
    if (!next.ok) throw new Error(next.issues.map(({ message }) => message).join(' '))
    expect(next.value.row).toMatchObject({ id: 'CC-101/2', version: 2, sensor, author: 'A. Tester' })
    expect(next.value.stepRows.map(({ calibration, step }) => [calibration, step])).toEqual(
      draft.steps.map((_, index) => ['CC-101/2', index + 1]),
    )
    expect(next.value.calibration.steps.map(({ kind }) => kind)).toEqual(draft.steps.map(({ kind }) => kind))
  })

  it('of a sensor that had none', () => {
    const bare = { ...model, calibrations: [], calibrationSteps: [] }
    const next = nextCalibration(bare, { ...draft, follows: 0 })
    expect(next.ok && next.value.row).toMatchObject({ id: `${sensor}/1`, version: 1 })
  })
})

describe('what is wrong with a draft is told by its place', () => {
  const withStep = (index: number, parameters: string) =>
    draft.steps.map((step, at) => (at === index ? { ...step, parameters } : step))
  const polynomial = draft.steps.findIndex(({ kind }) => kind === 'polynomial')
  it.each<[string, Partial<CalibrationDraft>, string, RegExp]>([
    ['no author', { author: ' ' }, 'author', /your name/],
    ['no reason', { reason: '' }, 'reason', /why this version/],
    ['an unknown sensor', { sensor: 'PZ-99/pore-pressure' }, 'sensor', /no sensor PZ-99/],
    ['a sensor that was saved meanwhile', { follows: 0 }, 'follows', /version 1 has been saved since/],
    ['a negative uncertainty', { standardUncertainty: -1 }, 'standardUncertainty', /not below 0/],
    ['due before it was made', { dueAtEpochMs: 0 }, 'dueAtEpochMs', /due before/],
    [
      'a coefficient left out',
      { steps: withStep(polynomial, 'c0=1; c1=2; unit=kPa') },
      `steps.${polynomial}.parameters`,
      /c2.*missing/,
    ],
    [
      'a coefficient that is no number',
      { steps: withStep(polynomial, 'c0=1; c1=2; c2=three; unit=kPa') },
      `steps.${polynomial}.parameters`,
      /c2.*not a number/,
    ],
    ['units that do not join', { steps: draft.steps.slice(1) }, 'steps', /CC-101\/2, step 1 .*needs Hz/],
    ['no steps', { steps: [] }, 'steps', /no steps/],
  ])('%s', (_, change, column, says) => {
    const issues = refused(change)
    expect(issues.map((issue) => issue.column)).toContain(column)
    expect(issues.map(({ message }) => message).join(' ')).toMatch(says)
  })

  it('all at once', () => {
    expect(refused({ author: '', reason: '', standardUncertainty: Number.NaN })).toHaveLength(3)
  })
})
