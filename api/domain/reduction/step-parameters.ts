import type { StepKind } from '../site/vocabulary.ts'

/**
 * Names, units and meaning of each step's parameters, as written in `calibration-steps.csv`.
 * x is what the step is given, y what it gives.
 */
export const stepParameters: Readonly<
  Record<
    StepKind,
    {
      readonly formula: string
      readonly numbers: readonly string[]
      readonly texts: readonly string[]
      /** Numbers that may be left out, with the value that then holds. They never enter the arithmetic. */
      readonly optional?: Readonly<Record<string, number>>
    }
  >
> = {
  /** us → Hz */
  'period-to-frequency': { formula: 'y = 1 000 000 / x', numbers: [], texts: [] },
  /** Hz → Hz²/1000 */
  'frequency-squared': { formula: 'y = x² / 1000', numbers: [], texts: [] },
  linear: { formula: 'y = factor · x + offset', numbers: ['factor', 'offset'], texts: ['unit'] },
  polynomial: { formula: 'y = c2 · x² + c1 · x + c0', numbers: ['c0', 'c1', 'c2'], texts: ['unit'] },
  /** ohm → degC */
  'steinhart-hart': {
    formula: 'y = 1 / (a + b · ln x + c · (ln x)³) − 273.15',
    numbers: ['a', 'b', 'c'],
    texts: [],
  },
  /** ohm → degC, IEC 60751 */
  'callendar-van-dusen': {
    formula: 'x = r0 · (1 + A y + B y² + C (y − 100) y³)',
    numbers: ['r0'],
    texts: [],
  },
  /** mA → unit, 4 to 20 mA */
  'current-span': {
    formula: 'y = low + (x − 4) / 16 · (high − low)',
    numbers: ['low', 'high'],
    texts: ['unit'],
  },
  /** V → unit */
  'voltage-span': {
    formula: 'y = low + (x − lowVolts) / (highVolts − lowVolts) · (high − low)',
    numbers: ['lowVolts', 'highVolts', 'low', 'high'],
    texts: ['unit'],
  },
  /** mV/V → unit */
  'ratio-bridge': {
    formula: 'y = (x − zero) / sensitivity · capacity',
    numbers: ['zero', 'sensitivity', 'capacity'],
    texts: ['unit'],
  },
  /** unit stays; the reading may be at most maximumAgeMinutes younger than the temperature's */
  thermal: {
    formula: 'y = x + factor · (T − reference)',
    numbers: ['factor', 'reference'],
    texts: [],
    optional: { maximumAgeMinutes: 60 },
  },
  /** kPa stays; the reading may be at most maximumAgeMinutes younger than the barometer's */
  barometric: {
    formula: 'y = x − (B − reference)',
    numbers: ['reference', 'maximumAgeMinutes'],
    texts: [],
  },
  /** unit stays */
  zero: { formula: 'y = x − value', numbers: ['value'], texts: [] },
  /** deg → mm */
  'gauge-length-sine': { formula: 'y = 1000 · length · sin x', numbers: ['length'], texts: [] },
  unit: { formula: 'y = x in another unit', numbers: [], texts: ['from', 'to'] },
}
