import { describe, expect, it } from 'vitest'
import type { CalibrationVersion } from '#contract/calibration-draft.ts'
import {
  draftOfFields,
  fieldsOfVersion,
  parameterNames,
  placeOfIssue,
} from '../../../web/panels/calibration-fields.ts'

const zone = 'Atlantic/Azores'
const version: CalibrationVersion = {
  row: {
    id: 'CC-1/2',
    sensor: 'PZ-1/pore-pressure',
    version: 2,
    validFrom: 0,
    certificate: 'SQ-1',
    calibratedAt: Date.UTC(2027, 0, 15, 1),
    dueAt: null,
    standardUncertainty: 0.3,
    author: 'A. Tester',
    reason: 'first',
  },
  stepRows: [
    { calibration: 'CC-1/2', step: 1, kind: 'period-to-frequency', parameters: null },
    { calibration: 'CC-1/2', step: 2, kind: 'linear', parameters: 'factor=-0.158; offset=12; unit=kPa' },
    { calibration: 'CC-1/2', step: 3, kind: 'thermal', parameters: 'factor=0.01;reference=12.5' },
  ],
  recordedAtEpochMs: 0,
  baselineSentence: null,
}
const fields = fieldsOfVersion(version, Date.UTC(2027, 6, 1, 12), zone, 'B. Other')

describe('a version as fields of a form, and back', () => {
  it('keeps its chain and begins anew with who, why and when', () => {
    expect(fields.steps.map(({ values }) => values)).toEqual([
      {},
      { factor: '-0.158', offset: '12', unit: 'kPa' },
      { factor: '0.01', reference: '12.5' },
    ])
    expect(fields).toMatchObject({ validFrom: '2027-07-01T12:00', author: 'B. Other', reason: '' })
    const draft = draftOfFields({ ...fields, reason: 'why' }, 'PZ-1/pore-pressure', 2, zone)
    expect(draft.steps).toEqual([
      { kind: 'period-to-frequency', parameters: '' },
      { kind: 'linear', parameters: 'factor=-0.158; offset=12; unit=kPa' },
      { kind: 'thermal', parameters: 'factor=0.01; reference=12.5' },
    ])
    expect(draft).toMatchObject({
      follows: 2,
      validFromEpochMs: Date.UTC(2027, 6, 1, 12),
      certificate: 'SQ-1',
      calibratedAtEpochMs: Date.UTC(2027, 0, 15, 1),
      dueAtEpochMs: null,
      standardUncertainty: 0.3,
      reason: 'why',
    })
  })

  it('sends what cannot be read as missing, so that the server says so, never as 0', () => {
    const odd = { ...fields, standardUncertainty: 'about 1', validFrom: '' }
    const draft = draftOfFields(odd, 'PZ-1/pore-pressure', 2, zone)
    expect(draft.standardUncertainty).toBeNull()
    expect(draft.validFromEpochMs).toBeNull()
    const blank = { ...fields, standardUncertainty: ' ', steps: [{ kind: 'zero', values: {} } as const] }
    expect(draftOfFields(blank, 'x', 0, zone)).toMatchObject({
      standardUncertainty: null,
      steps: [{ kind: 'zero', parameters: 'value=' }],
    })
  })

  it('takes a true minus sign, and leaves out what may be left out', () => {
    const steps = [
      { kind: 'thermal', values: { factor: '−0.02', reference: '10', maximumAgeMinutes: '' } } as const,
    ]
    expect(draftOfFields({ ...fields, steps }, 'x', 0, zone).steps[0]?.parameters).toBe(
      'factor=-0.02; reference=10',
    )
    expect(
      parameterNames('thermal')
        .filter(({ optional }) => optional)
        .map(({ name }) => name),
    ).toContain('maximumAgeMinutes')
  })

  it.each([
    ['steps.2.parameters', 'steps.2'],
    ['steps', 'steps'],
    ['validFromEpochMs', 'validFrom'],
    ['follows', null],
    [undefined, null],
  ])('an issue at %s stands at %s', (column, place) => {
    expect(placeOfIssue(column)).toBe(place)
  })
})
