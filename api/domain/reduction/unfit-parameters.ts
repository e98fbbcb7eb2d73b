import type { StepKind } from '../site/vocabulary.ts'
import type { StepParameters } from './chain.ts'
import { stepParameters } from './step-parameters.ts'

/** A number with which a step's formula means nothing: it would divide by nought, or give one value whatever is read. */
export interface UnfitParameter {
  readonly name: string
  readonly message: string
  readonly expected: string
}

interface Rule extends UnfitParameter {
  readonly kinds: readonly StepKind[]
  readonly isUnfit: (of: (name: string) => number) => boolean
}

/** What is wrong with the numbers of a step whose names have been checked; texts are the caller's. */
export function unfitParameters(kind: StepKind, parameters: StepParameters): readonly UnfitParameter[] {
  const given: StepParameters = { ...stepParameters[kind].optional, ...parameters }
  const of = (name: string): number => Number(given[name])
  return rules.filter(({ kinds, isUnfit }) => kinds.includes(kind) && isUnfit(of))
}

const rule = (
  kinds: readonly StepKind[],
  name: string,
  isUnfit: Rule['isUnfit'],
  message: string,
  expected: string,
): Rule => ({ kinds, name, isUnfit, message, expected })

const notAbove0 = (kinds: readonly StepKind[], name: string, what: string): Rule =>
  rule(kinds, name, (of) => !(of(name) > 0), `${what} must be above 0. Correct it.`, 'above 0')

const rules: readonly Rule[] = [
  rule(
    ['linear'],
    'factor',
    (of) => of('factor') === 0,
    'With a factor of 0 every reading gives the same value. Correct the factor.',
    'not 0',
  ),
  rule(
    ['polynomial'],
    'c1',
    (of) => of('c1') === 0 && of('c2') === 0,
    'With c1 and c2 both 0 every reading gives the same value. Correct them.',
    'not both 0',
  ),
  rule(
    ['steinhart-hart'],
    'b',
    (of) => !(of('b') > 0) || of('c') < 0,
    'Temperature must fall as resistance rises: b above 0 and c not below 0. Correct them.',
    'b > 0, c ≥ 0',
  ),
  notAbove0(['beta'], 'r25', 'The resistance at 25 °C'),
  notAbove0(['beta'], 'beta', 'Temperature must fall as resistance rises: beta'),
  notAbove0(['callendar-van-dusen'], 'r0', 'The resistance at 0 °C'),
  rule(
    ['current-span', 'voltage-span', 'potentiometer'],
    'high',
    (of) => of('low') === of('high'),
    'The two ends of the span are equal. Correct them.',
    'high different from low',
  ),
  rule(
    ['voltage-span'],
    'highVolts',
    (of) => of('lowVolts') === of('highVolts'),
    'The two voltages of the span are equal. Correct them.',
    'highVolts different from lowVolts',
  ),
  rule(
    ['ratio-bridge'],
    'sensitivity',
    (of) => of('sensitivity') === 0,
    'A sensitivity of 0 divides by nought. Correct it.',
    'not 0',
  ),
  rule(
    ['ratio-bridge'],
    'capacity',
    (of) => of('capacity') === 0,
    'A capacity of 0 gives 0 whatever is read. Correct it.',
    'not 0',
  ),
  notAbove0(['gauge-length-sine'], 'length', 'The gauge length'),
  notAbove0(['wire-strain'], 'lengthMetres', 'The length of the wire'),
  notAbove0(['wire-strain'], 'densityKgPerM3', "The wire's density"),
  notAbove0(['wire-strain'], 'modulusGpa', "The wire's modulus"),
  rule(
    ['wire-strain'],
    'diameterMillimetres',
    (of) => of('diameterMillimetres') < 0,
    'The diameter of the wire cannot be below 0. Correct it, or leave it out.',
    '0 or more',
  ),
  notAbove0(['quarter-bridge'], 'gaugeFactor', 'The gauge factor'),
  rule(
    ['quarter-bridge'],
    'sense',
    (of) => Math.abs(of('sense')) !== 1,
    'The sense says which way the bridge is wired: 1 where its output rises in tension, -1 where it falls. Correct it.',
    '1 or -1',
  ),
  rule(
    ['full-bridge'],
    'gaugeFactor',
    (of) => of('gaugeFactor') === 0,
    'A gauge factor of 0 divides by nought. Correct it.',
    'not 0',
  ),
  rule(
    ['full-bridge'],
    'activeArms',
    (of) => !(of('activeArms') > 0 && of('activeArms') <= 4),
    'A full bridge has more than 0 and at most 4 active arms. Correct it.',
    'above 0, at most 4',
  ),
  notAbove0(['shunt'], 'ohms', 'The resistance of the shunt'),
  notAbove0(['rain-counter'], 'mmPerTip', 'The rain of one tip'),
  rule(
    ['rain-counter'],
    'rollsOverAt',
    (of) => of('rollsOverAt') < 0,
    'A counter cannot roll over below 0. Give how many tips it can tell apart, or leave it out.',
    '0 or more',
  ),
  rule(
    ['barometric'],
    'reference',
    (of) => of('reference') < 0,
    'Air pressure cannot be below 0 kPa. Give the station pressure at the zero reading, or 0 for a sensor whose zero is a vacuum.',
    '0 or more',
  ),
  rule(
    ['barometric'],
    'efficiency',
    (of) => !(of('efficiency') >= 0 && of('efficiency') <= 1),
    'A sensor feels from none (0) to all (1) of a change of air pressure. Correct it.',
    '0 to 1',
  ),
  rule(
    ['barometric'],
    'efficiency',
    (of) => of('efficiency') < 1 && of('reference') === 0,
    'A share of the change of air pressure needs the pressure at the zero reading to change from. Give it as reference, or leave efficiency out.',
    '1, or a reference above 0',
  ),
  rule(
    ['barometric'],
    'riseMetres',
    (of) => !(Math.abs(of('riseMetres')) <= 2000),
    'Air pressure is carried over at most 2000 m. Give the height of the sensor above its barometer, negative below it.',
    '-2000 to 2000',
  ),
  rule(
    ['thermal', 'barometric', 'strain-temperature'],
    'maximumAgeMinutes',
    (of) => of('maximumAgeMinutes') < 0,
    'An age cannot be negative. Correct it.',
    '0 or more',
  ),
]
