import { describe, expect, test } from 'vitest'
import { parseStepParameters } from '#domain/reduction/parse-step-parameters.ts'

const codes = (kind: Parameters<typeof parseStepParameters>[0], text: string) => {
  const parsed = parseStepParameters(kind, text)
  return parsed.ok ? [] : parsed.issues.map(({ code }) => code)
}

describe('parseStepParameters', () => {
  test('reads numbers and texts, with or without blanks', () => {
    expect(parseStepParameters('linear', ' factor = -0.158;offset=1.4062e3 ; unit= kPa;')).toEqual({
      ok: true,
      value: { factor: -0.158, offset: 1406.2, unit: 'kPa' },
    })
    expect(parseStepParameters('period-to-frequency', '')).toEqual({ ok: true, value: {} })
    expect(parseStepParameters('thermal', 'factor=1;reference=2;maximumAgeMinutes=30')).toMatchObject({
      ok: true,
    })
    expect(parseStepParameters('unit', "from=''; to=deg")).toEqual({
      ok: true,
      value: { from: "''", to: 'deg' },
    })
  })

  test.each([
    ['linear', 'factor=1;unit=kPa', 'parameter-missing'],
    ['linear', 'factor=1;offset=0', 'parameter-missing'],
    ['linear', 'factor=1;offset=0;unit=kPa;colour=3', 'parameter-unknown'],
    ['linear', 'Factor=1;offset=0;unit=kPa', 'parameter-unknown'],
    ['linear', 'factor=1;factor=2;offset=0;unit=kPa', 'parameter-repeated'],
    ['linear', 'factor=0,158;offset=0;unit=kPa', 'number-expected'],
    ['linear', 'factor=;offset=0;unit=kPa', 'number-expected'],
    ['linear', 'factor=NaN;offset=0;unit=kPa', 'number-expected'],
    ['linear', 'factor=Infinity;offset=0;unit=kPa', 'number-expected'],
    ['linear', 'factor=1e999;offset=0;unit=kPa', 'number-expected'],
    ['linear', 'factor=0x10;offset=0;unit=kPa', 'number-expected'],
    ['linear', 'factor 1;offset=0;unit=kPa', 'pair-expected'],
    ['linear', '=1', 'pair-expected'],
    ['linear', 'factor=0;offset=0;unit=kPa', 'parameter-unfit'],
    ['linear', 'factor=1;offset=0;unit=kpa', 'unit-unknown'],
    ['linear', 'factor=1;offset=0;unit=', 'unit-unknown'],
    ['polynomial', 'c0=1;c1=0;c2=0;unit=kPa', 'parameter-unfit'],
    ['steinhart-hart', 'a=1e-3;b=-2e-4;c=1e-7', 'parameter-unfit'],
    ['callendar-van-dusen', 'r0=0', 'parameter-unfit'],
    ['current-span', 'low=5;high=5;unit=m', 'parameter-unfit'],
    ['voltage-span', 'lowVolts=1;highVolts=1;low=0;high=5;unit=m', 'parameter-unfit'],
    ['ratio-bridge', 'zero=0;sensitivity=0;capacity=100;unit=kN', 'parameter-unfit'],
    ['ratio-bridge', 'zero=0;sensitivity=2;capacity=0;unit=kN', 'parameter-unfit'],
    ['gauge-length-sine', 'length=-2', 'parameter-unfit'],
    ['barometric', 'reference=101;maximumAgeMinutes=-1', 'parameter-unfit'],
    ['barometric', 'reference=-1;maximumAgeMinutes=60', 'parameter-unfit'],
    ['barometric', 'reference=101;maximumAgeMinutes=60;efficiency=1.1', 'parameter-unfit'],
    ['barometric', 'reference=0;maximumAgeMinutes=60;efficiency=0.4', 'parameter-unfit'],
    ['barometric', 'reference=101;maximumAgeMinutes=60;riseMetres=5000', 'parameter-unfit'],
    ['beta', 'r25=0;beta=3900', 'parameter-unfit'],
    ['beta', 'r25=3000;beta=-3900', 'parameter-unfit'],
    ['beta', 'r25=3000', 'parameter-missing'],
    ['wire-strain', 'lengthMetres=0;densityKgPerM3=7850;modulusGpa=200', 'parameter-unfit'],
    ['wire-strain', 'lengthMetres=0.15;densityKgPerM3=7850;modulusGpa=0', 'parameter-unfit'],
    ['strain-temperature', 'reference=10', 'parameter-missing'],
    ['strain-temperature', 'wire=12.2;reference=10;maximumAgeMinutes=-1', 'parameter-unfit'],
    ['quarter-bridge', 'gaugeFactor=2', 'parameter-missing'],
    ['quarter-bridge', 'gaugeFactor=2;sense=0', 'parameter-unfit'],
    ['quarter-bridge', 'gaugeFactor=0;sense=1', 'parameter-unfit'],
    ['full-bridge', 'gaugeFactor=0', 'parameter-unfit'],
    ['full-bridge', 'gaugeFactor=2;activeArms=5', 'parameter-unfit'],
    ['potentiometer', 'low=1;high=1;unit=mm', 'parameter-unfit'],
    ['potentiometer', 'low=0;high=100;unit=millimetre', 'unit-unknown'],
    ['shunt', 'ohms=0', 'parameter-unfit'],
    ['rain-counter', 'mmPerTip=0', 'parameter-unfit'],
    ['rain-counter', 'mmPerTip=0.2;rollsOverAt=-1', 'parameter-unfit'],
    ['unit', 'from=kPa;to=mm', 'units-of-different-kinds'],
    ['unit', 'from=kPa;to=furlong', 'unit-unknown'],
  ] as const)('%s: %s is refused: %s', (kind, text, code) => {
    expect(codes(kind, text)).toContain(code)
  })

  test('reports every fault of a text, each once, with what to do', () => {
    const parsed = parseStepParameters('linear', 'factor=x;oddity=3')
    expect(parsed.ok ? [] : parsed.issues.map(({ code, value }) => [code, value])).toEqual([
      ['number-expected', 'factor=x'],
      ['parameter-unknown', 'oddity'],
      ['parameter-missing', 'offset'],
      ['parameter-missing', 'unit'],
    ])
    if (!parsed.ok) for (const { message } of parsed.issues) expect(message).toMatch(/\.$/)
  })
})
