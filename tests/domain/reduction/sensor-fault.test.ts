import { describe, expect, test } from 'vitest'
import type { CalibrationStep } from '#domain/reduction/chain.ts'
import { quality } from '#domain/reduction/quality.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'
import { steps } from '#domain/reduction/steps.ts'

const none = { temperatureDegC: null, barometerKpa: null }
const loop: readonly CalibrationStep[] = [
  { kind: 'current-span', parameters: { low: 0, high: 700, unit: 'kPa' } },
]

describe('a current loop', () => {
  test.each([
    [3.6, null],
    [0, null],
    [-1, null],
    [21, null],
    [22.4, null],
    [3.61, -17.0625],
    [3.8, -8.75],
    [20.99, 743.3125],
  ])('of %d mA gives %d, never clipped', (milliamps, value) => {
    const reduced = reduceValue(milliamps, loop, none)
    if (value === null) expect(reduced).toMatchObject({ value: null, quality: quality.sensorFault })
    else {
      expect(reduced.value).toBeCloseTo(value, 9)
      expect(reduced.quality).toBe(0)
    }
  })

  test('through a shunt is told from its voltage', () => {
    const chain: readonly CalibrationStep[] = [{ kind: 'shunt', parameters: { ohms: 250 } }, ...loop]
    expect(reduceValue(0.9, chain, none).quality).toBe(quality.sensorFault)
    expect(reduceValue(3, chain, none).value).toBe(350)
  })

  test.each([
    [3.7, 'below 3.8 mA'],
    [20.7, 'above 20.5 mA'],
  ])('of %d mA says that it lies in neither band, and keeps the value', (milliamps, says) => {
    const parameters = loop[0]?.parameters ?? {}
    const y = steps['current-span'].apply(milliamps, parameters, none)
    const units = { unitIn: 'mA', unitOut: 'kPa' }
    const sentence = steps['current-span'].sentence(milliamps, y, parameters, none, units)
    expect(sentence).toContain(says)
    expect(sentence).toContain('neither the measuring nor the failure band')
  })
})

test.each([
  ['steinhart-hart', { a: 1.4051e-3, b: 2.369e-4, c: 1.019e-7 }, [0, -5, 2, 5e6]],
  ['beta', { r25: 3000, beta: 3900 }, [0, -5, 2, 5e7]],
  ['callendar-van-dusen', { r0: 100 }, [0, 5, 450]],
] as const)('%s: open and shorted are faults of the sensor', (kind, parameters, resistances) => {
  for (const ohm of resistances)
    expect(reduceValue(ohm, [{ kind, parameters }], none), `${ohm}`).toMatchObject({
      value: null,
      quality: quality.sensorFault,
    })
})

test('what is no number at all is not laid on the sensor', () => {
  expect(reduceValue(Number.NaN, loop, none).quality).toBe(quality.notComputable)
  expect(reduceValue(null, loop, none).quality).toBe(quality.notComputable)
})

test('a fault and a missing barometer are both told', () => {
  const chain: readonly CalibrationStep[] = [
    ...loop,
    { kind: 'barometric', parameters: { reference: 101, maximumAgeMinutes: 60 } },
  ]
  expect(reduceValue(22, chain, none).quality).toBe(quality.sensorFault + quality.barometerMissing)
})

test('a counter that rolled over is not rain taken away', () => {
  const counter = (rollsOverAt: number): readonly CalibrationStep[] => [
    { kind: 'rain-counter', parameters: { mmPerTip: 0.2, rollsOverAt } },
  ]
  expect(reduceValue(-65_530, counter(65_536), none).value).toBeCloseTo(1.2, 12)
  expect(reduceValue(-65_530, counter(0), none)).toMatchObject({
    value: null,
    quality: quality.notComputable,
  })
  expect(reduceValue(-65_537, counter(65_536), none).value).toBeNull()
})

test('a platinum trail tells what the classes of IEC 60751 allow there', () => {
  const sentence = steps['callendar-van-dusen'].sentence(138.5055, 100, { r0: 100 }, none, {
    unitIn: 'Ohm',
    unitOut: 'Cel',
  })
  expect(sentence).toContain('class A ±0.35 °C there, of class B ±0.8 °C')
})

test('a wire of a stated diameter says what its stiffness does (VW-18: 6.3 %)', () => {
  const parameters = { lengthMetres: 0.05, densityKgPerM3: 7850, modulusGpa: 200, diameterMillimetres: 0.25 }
  // 400 MPa in 200 GPa is 2000 µm/m.
  const x = steps['wire-strain'].invert(2000, parameters, none) ?? Number.NaN
  const units = { unitIn: '10*3.Hz2', unitOut: 'um/m' }
  const sentence = steps['wire-strain'].sentence(x, 2000, parameters, none, units)
  expect(sentence).toContain('a wire of 0.25 mm rings 6.3 % higher')
})
