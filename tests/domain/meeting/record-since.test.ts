import { expect, it } from 'vitest'
import { recordSince, showsInFrozen, type WrittenRecord } from '#domain/meeting/record-since.ts'

const bodies: Record<string, Readonly<Record<string, unknown>>> = {
  'calibrations CC-118/2': { id: 'CC-118/2', sensor: 'PZ-05C/pore-pressure', version: 2, validFrom: 5 },
  'verdicts V-1': { id: 'V-1', series: 'TL-11/tilt', fromAt: 1, untilAt: 2 },
  'approvals AP-1': { id: 'AP-1', instrument: 'PZ-05', fromAt: 1, untilAt: 2 },
}
const told = (record: Partial<WrittenRecord> & Pick<WrittenRecord, 'kind'>) =>
  recordSince(
    { key: 'x', body: null, before: null, ...record },
    (table, key) => bodies[`${table} ${key}`] ?? null,
    (_, key) => key === 'written',
  )
const sentence = (...given: Parameters<typeof told>) => told(...given)?.sentence ?? null

it('says what is otherwise since, by the place that it is about', () => {
  const calibration = { kind: 'calibrations', key: 'CC-118/2' }
  const body = bodies['calibrations CC-118/2'] ?? null
  expect(told({ ...calibration, body })).toEqual({
    kind: 'calibration',
    name: 'CC-118/2',
    what: 'corrected',
    series: 'PZ-05C/pore-pressure',
    place: 'PZ-05C',
    fromEpochMs: 5,
    untilEpochMs: null,
    sentence: 'The calibration of PZ-05C was corrected.',
  })
  expect(sentence({ ...calibration, body: { ...body, version: 1 } })).toBe(
    'The calibration of PZ-05C was added.',
  )
  expect(sentence({ ...calibration, body: null, before: body })).toBe(
    'The calibration of PZ-05C was withdrawn.',
  )
  expect(sentence({ kind: 'zeroReadings', body: { calibration: 'CC-118/2', at: 3 } })).toBe(
    'A zero reading of PZ-05C was added.',
  )
  expect(
    told({
      kind: 'sensorBarometers',
      body: {
        sensor: 'PZ-05C/pore-pressure',
        version: 1,
        validFrom: 6,
        barometer: 'BA-02/barometric-pressure',
      },
    }),
  ).toMatchObject({
    kind: 'barometer',
    what: 'corrected',
    fromEpochMs: 6,
    sentence: 'The barometer of PZ-05C was corrected.',
  })
  expect(
    told({ kind: 'loggerClocks', body: { logger: 'LG-05', version: 1, validFrom: 6, addedSeconds: -2700 } }),
  ).toMatchObject({
    kind: 'clock',
    what: 'corrected',
    place: 'LG-05',
    fromEpochMs: 6,
    sentence: 'The clock of LG-05 was corrected.',
  })
  expect(
    sentence({
      kind: 'wiring',
      body: { sensor: 'TL-11/tilt', fromAt: 1, untilAt: 9 },
      before: { sensor: 'TL-11/tilt', fromAt: 1 },
    }),
  ).toBe('The wiring of TL-11 was corrected.')
  expect(sentence({ kind: 'triggerLevels', key: 'TL-11 tilt 1', body: { series: 'TL-11/tilt' } })).toBe(
    'The level TL-11 tilt 1 of TL-11 was added.',
  )
  expect(sentence({ kind: 'stages', key: 'dig-2', body: { startsAt: 4, endsAt: null }, before: {} })).toBe(
    'The stage dig-2 was corrected.',
  )
})

it('says of what is taken back what it was about', () => {
  expect(told({ kind: 'verdictWithdrawals', key: 'V-1', body: { verdict: 'V-1', at: 7 } })).toMatchObject({
    sentence: 'A verdict of TL-11 was withdrawn.',
    series: 'TL-11/tilt',
    fromEpochMs: 1,
    untilEpochMs: 2,
  })
  expect(told({ kind: 'approvalWithdrawals', key: 'AP-1', body: { approval: 'AP-1' } })).toMatchObject({
    sentence: 'An approval of PZ-05 was withdrawn.',
    place: 'PZ-05',
    series: null,
  })
})

it('says of a verdict that it was looked at again', () => {
  const review = { verdict: 'V-1', at: 7, outcome: 'upheld' }
  expect(sentence({ kind: 'verdictReviews', body: review })).toBe('A verdict of TL-11 was looked at again.')
})

it('names other records, and leaves out those that change nothing of what is shown', () => {
  expect(sentence({ kind: 'facts', key: '', body: {}, before: {} })).toBe(
    'What holds for the whole site was corrected.',
  )
  expect(sentence({ kind: 'works', key: 'box', body: {} })).toBe('The works feature box was added.')
  expect(sentence({ kind: 'checkLimits', key: 'CL-1', body: {} })).toBe(
    'The record CL-1 of check limits was added.',
  )
  for (const kind of ['contacts', 'dutyShifts', 'minutes', 'order', 'layout'])
    expect(sentence({ kind, body: {} })).toBeNull()
})

it('says a part with its whole, and by itself where it changed alone', () => {
  expect(sentence({ kind: 'calibrationSteps', body: { calibration: 'written' } })).toBeNull()
  expect(sentence({ kind: 'verdictEvidence', body: { verdict: 'written' } })).toBeNull()
  const factor = (parameters: string) => ({ calibration: 'CC-118/2', step: 1, parameters })
  expect(
    told({ kind: 'calibrationSteps', body: factor('factor=2'), before: factor('factor=1') }),
  ).toMatchObject({ name: 'CC-118/2', place: 'PZ-05C', sentence: 'The calibration of PZ-05C was corrected.' })
  expect(told({ kind: 'calibrationSteps', before: factor('factor=1') })).toMatchObject({ what: 'corrected' })
  expect(showsInFrozen('calibrationSteps')).toBe(true)
  expect(showsInFrozen('minutes')).toBe(true)
  expect(showsInFrozen('contacts')).toBe(false)
})
