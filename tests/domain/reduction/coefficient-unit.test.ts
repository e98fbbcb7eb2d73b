import { expect, test } from 'vitest'
import type { CalibrationStep } from '#domain/reduction/chain.ts'
import { coefficientUnit } from '#domain/reduction/coefficient-unit.ts'
import { coefficientNames, stepParameters } from '#domain/reduction/step-parameters.ts'
import type { StepKind } from '#domain/site/vocabulary.ts'

const chain: readonly CalibrationStep[] = [
  { kind: 'frequency-squared', parameters: {} },
  { kind: 'polynomial', parameters: { c0: 900, c1: -0.1, c2: 0, unit: 'kPa' } },
  { kind: 'thermal', parameters: { factor: -0.02, reference: 12 } },
]

test('a number of a chain has the unit that its arithmetic gives it', () => {
  const unit = (place: number, name: string, raw: string | null = 'Hz') =>
    coefficientUnit(chain, place, name, raw)
  expect(unit(1, 'c0')).toBe('kPa')
  expect(unit(1, 'c1')).toBe('kPa per Hz²/1000')
  expect(unit(1, 'c2')).toBe('kPa per (Hz²/1000)²')
  expect(unit(2, 'factor')).toBe('kPa per °C')
  expect(unit(2, 'reference')).toBe('°C')
  expect(unit(2, 'no-such')).toBeNull()
  expect(unit(9, 'c0')).toBeNull()
})

test('where what the logger gives is not known, that is said and no unit is made up', () => {
  const straight: CalibrationStep = { kind: 'linear', parameters: { factor: 2, offset: 0, unit: 'mm' } }
  expect(coefficientUnit([straight], 0, 'factor', null)).toBe('mm per unit of the reading')
  expect(coefficientUnit([straight], 0, 'factor', 'mA')).toBe('mm per mA')
})

test.each(Object.keys(stepParameters) as StepKind[])(
  'every number of %s has a unit or is said to have none',
  (kind) => {
    const parameters = { unit: 'mm', from: 'm', to: 'mm' }
    for (const name of coefficientNames(kind))
      expect(coefficientUnit([{ kind, parameters }], 0, name, 'Hz'), name).not.toBeNull()
  },
)
