import { expect, test } from 'vitest'
import { companionAges, pickCompanion } from '#domain/reduction/companion-age.ts'

test('ages are those the chain states, the strictest of several, an hour where a thermal term states none', () => {
  expect(companionAges([])).toEqual({ temperatureMinutes: null, barometerMinutes: null })
  expect(
    companionAges([
      { kind: 'thermal', parameters: { factor: 1, reference: 0 } },
      { kind: 'barometric', parameters: { reference: 101, maximumAgeMinutes: 120 } },
      { kind: 'barometric', parameters: { reference: 101, maximumAgeMinutes: 90 } },
    ]),
  ).toEqual({ temperatureMinutes: 60, barometerMinutes: 90 })
  expect(
    companionAges([{ kind: 'thermal', parameters: { factor: 1, reference: 0, maximumAgeMinutes: 5 } }])
      .temperatureMinutes,
  ).toBe(5)
})

const at = (minutes: number) => ({ atEpochMs: minutes * 60_000 })

test('the companion is the nearest at or before, never after, never too old', () => {
  const readings = [at(0), at(50), at(100), at(110)]
  expect(pickCompanion(readings, at(105).atEpochMs, 60)).toEqual(at(100))
  expect(pickCompanion(readings, at(100).atEpochMs, 0)).toEqual(at(100))
  expect(pickCompanion(readings, at(170).atEpochMs, 60)).toEqual(at(110))
  expect(pickCompanion(readings, at(171).atEpochMs, 60)).toBeNull()
  expect(pickCompanion(readings, -1, 60)).toBeNull()
})
