import { expect, test } from 'vitest'
import { calibrationAt, calibrationPeriods } from '#domain/reduction/calibration-in-force.ts'
import type { Calibration } from '#domain/reduction/chain.ts'

const version = (number: number, validFromEpochMs: number, sensor = 'A'): Calibration => ({
  id: `${sensor}/${number}`,
  sensor,
  version: number,
  validFromEpochMs,
  certificate: null,
  standardUncertainty: 0.3,
  steps: [],
})

test('a version holds from its first instant to that of the next', () => {
  const both = [version(2, 200), version(1, 100)]
  expect([99, 100, 199, 200, 9e15].map((at) => calibrationAt(both, at)?.id ?? null)).toEqual([
    null,
    'A/1',
    'A/1',
    'A/2',
    'A/2',
  ])
  expect(calibrationAt([], 100)).toBeNull()
})

test('a later version from the same instant puts the earlier one right, and only it', () => {
  const three = [version(1, 100), version(2, 200), version(3, 100)]
  expect([150, 250].map((at) => calibrationAt(three, at)?.id)).toEqual(['A/3', 'A/2'])
  expect(calibrationPeriods(three)).toMatchObject([
    { calibration: { id: 'A/3' }, fromEpochMs: 100, untilEpochMs: 200 },
    { calibration: { id: 'A/2' }, fromEpochMs: 200, untilEpochMs: null },
  ])
})

test('periods of one sensor know nothing of another', () => {
  expect(
    calibrationPeriods([version(1, 100), version(1, 150, 'B')]).map(({ untilEpochMs }) => untilEpochMs),
  ).toEqual([null, null])
})
