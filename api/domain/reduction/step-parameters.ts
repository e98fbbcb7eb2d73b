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
      /** Numbers that may be left out, with the value that then holds. */
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
  /**
   * kPa stays; the reading may be at most maximumAgeMinutes younger than the barometer's. reference: air pressure at
   * the same barometer at the zero reading, 0 for a sensor whose zero is a vacuum. efficiency: share of a change of
   * air pressure that the sensor feels, 0 to 1 (1 − barometric efficiency of the ground). riseMetres: the sensor's
   * reference level above the barometer.
   */
  barometric: {
    formula: 'y = x − efficiency · (B − reference), both carried up by riseMetres',
    numbers: ['reference', 'maximumAgeMinutes'],
    texts: [],
    optional: { efficiency: 1, riseMetres: 0 },
  },
  /**
   * unit stays. A correction of several sensors by one number has its own number, above 0; commonError is the standard
   * error of value with its sign, the same error at all sensors of that correction, and part of the calibration's.
   */
  zero: {
    formula: 'y = x − value',
    numbers: ['value'],
    texts: [],
    optional: { commonError: 0, correction: 0 },
  },
  /** deg → mm */
  'gauge-length-sine': { formula: 'y = 1000 · length · sin x', numbers: ['length'], texts: [] },
  unit: { formula: 'y = x in another unit', numbers: [], texts: ['from', 'to'] },
  /** ohm → degC; r25 the resistance at 25 °C in Ω, beta in K */
  beta: {
    formula: 'y = 1 / (1 / 298.15 + ln(x / r25) / beta) − 273.15',
    numbers: ['r25', 'beta'],
    texts: [],
  },
  /** Hz²/1000 → um/m, tension positive; with its diameterMillimetres the trail says what the wire's stiffness does */
  'wire-strain': {
    formula: 'y = 4 · lengthMetres² · densityKgPerM3 · x / modulusGpa',
    numbers: ['lengthMetres', 'densityKgPerM3', 'modulusGpa'],
    texts: [],
    optional: { diameterMillimetres: 0 },
  },
  /** um/m stays; wire and structure are coefficients of expansion in um/m/degC */
  'strain-temperature': {
    formula: 'y = x + (wire − structure) · (T − reference)',
    numbers: ['wire', 'reference'],
    texts: [],
    optional: { structure: 0, maximumAgeMinutes: 60 },
  },
  /** mV/V → um/m, tension positive; sense 1 where the output rises in tension, −1 where it falls; zero in mV/V */
  'quarter-bridge': {
    formula: 'y = 10⁶ · 4 r / (gaugeFactor · (1 − 2 r)), r = sense · (x − zero) / 1000',
    numbers: ['gaugeFactor', 'sense'],
    texts: [],
    optional: { zero: 0 },
  },
  /** mV/V → um/m, tension positive; activeArms is 4 for two gauges each way in full strain, 2.6 with two across */
  'full-bridge': {
    formula: 'y = 4000 · (x − zero) / (activeArms · gaugeFactor)',
    numbers: ['gaugeFactor'],
    texts: [],
    optional: { activeArms: 4, zero: 0 },
  },
  /** V/V of measured excitation → unit; low at one end of the track, high at the other */
  potentiometer: { formula: 'y = low + x · (high − low)', numbers: ['low', 'high'], texts: ['unit'] },
  /** V → mA */
  shunt: { formula: 'y = 1000 · x / ohms', numbers: ['ohms'], texts: [] },
  /**
   * count → mm: tips since the reading before. rollsOverAt: how many tips the counter can tell apart; a difference
   * taken across its roll-over is negative, and this is added to it. 0: it has no roll-over that is known.
   */
  'rain-counter': {
    formula: 'y = x · mmPerTip; (x + rollsOverAt) · mmPerTip where x is negative',
    numbers: ['mmPerTip'],
    texts: [],
    optional: { rollsOverAt: 0 },
  },
  /** mm/m (a thousand times the sine of the tilt) → deg */
  'sine-to-tilt': { formula: 'y = arcsin(x / 1000)', numbers: [], texts: [] },
  /** deg → mm/m */
  'tilt-to-sine': { formula: 'y = 1000 · sin x', numbers: [], texts: [] },
}

/** The numbers of a kind of step that enter its arithmetic or may, in the order of its coefficients. */
export const coefficientNames = (kind: StepKind): readonly string[] => [
  ...stepParameters[kind].numbers,
  ...Object.keys(stepParameters[kind].optional ?? {}),
]
