import type { StepKind } from '../site/vocabulary.ts'
import { unitSymbol } from '../units.ts'
import type { CalibrationStep } from './chain.ts'
import { steps as stepsByKind } from './steps.ts'

/** Symbols of what a step is given and what it gives. */
interface StepSymbols {
  readonly given: string
  readonly gives: string
}

type SymbolOf = string | ((symbols: StepSymbols) => string)

const gives: SymbolOf = (symbols) => symbols.gives
const per = (symbols: StepSymbols, power = '') =>
  `${symbols.gives} per ${power === '' ? symbols.given : `(${symbols.given})${power}`}`
const age = { maximumAgeMinutes: 'min' }

const symbols: Readonly<Record<StepKind, Readonly<Record<string, SymbolOf>>>> = {
  'period-to-frequency': {},
  'frequency-squared': {},
  linear: { factor: (one) => per(one), offset: gives },
  polynomial: { c0: gives, c1: (one) => per(one), c2: (one) => per(one, '²') },
  'steinhart-hart': { a: '1/K', b: '1/K', c: '1/K' },
  'callendar-van-dusen': { r0: 'Ω' },
  'current-span': { low: gives, high: gives },
  'voltage-span': { lowVolts: 'V', highVolts: 'V', low: gives, high: gives },
  'ratio-bridge': { zero: 'mV/V', sensitivity: 'mV/V', capacity: gives },
  thermal: { factor: (one) => `${one.gives} per °C`, reference: '°C', ...age },
  barometric: { reference: 'kPa', efficiency: '', riseMetres: 'm', ...age },
  zero: { value: gives, commonError: gives, correction: '' },
  'gauge-length-sine': { length: 'm' },
  unit: {},
  beta: { r25: 'Ω', beta: 'K' },
  'wire-strain': {
    lengthMetres: 'm',
    densityKgPerM3: 'kg/m³',
    modulusGpa: 'GPa',
    diameterMillimetres: 'mm',
  },
  'strain-temperature': { wire: 'µm/m per °C', structure: 'µm/m per °C', reference: '°C', ...age },
  'quarter-bridge': { gaugeFactor: '', sense: '', zero: 'mV/V' },
  'full-bridge': { gaugeFactor: '', activeArms: '', zero: 'mV/V' },
  potentiometer: { low: gives, high: gives },
  shunt: { ohms: 'Ω' },
  'rain-counter': { mmPerTip: 'mm per tip', rollsOverAt: 'tips' },
  'sine-to-tilt': {},
  'tilt-to-sine': {},
}

/**
 * Unit of a number of a step in a chain, as people write it, `kPa per Hz²/1000`; empty: the number has none. `place` counts
 * from 0. `rawUnit`: UCUM code of what the logger gives, null where it is not known. Null: no such number.
 */
export function coefficientUnit(
  chain: readonly CalibrationStep[],
  place: number,
  name: string,
  rawUnit: string | null,
): string | null {
  const step = chain[place]
  const of = step ? symbols[step.kind][name] : undefined
  if (!step || of === undefined) return null
  if (typeof of === 'string') return of
  const unknown = 'unit of the reading'
  const given = chain
    .slice(0, place)
    .reduce((unit, { kind, parameters }) => stepsByKind[kind].unitOut(parameters, unit), rawUnit ?? unknown)
  return of({
    given: unitSymbol(given),
    gives: unitSymbol(stepsByKind[step.kind].unitOut(step.parameters, given)),
  })
}
