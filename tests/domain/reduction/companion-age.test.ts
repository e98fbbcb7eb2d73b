import { expect, test } from 'vitest'
import { companionAges } from '#domain/reduction/companion-age.ts'

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
