import { accept, type Outcome, reject } from './outcome.ts'

/** What a unit measures. Only units of one dimension convert into each other. */
export type Dimension =
  | 'pressure'
  | 'length'
  | 'angle'
  | 'slope'
  | 'force'
  | 'temperature'
  | 'time'
  | 'frequency'
  | 'frequency-squared'
  | 'resistance'
  | 'current'
  | 'voltage'
  | 'voltage-ratio'
  | 'unit-weight'
  | 'flow'
  | 'transmissivity'
  | 'proportion'
  | 'count'

export interface Unit {
  /** UCUM code (case sensitive). */
  readonly code: string
  /** As people read it. */
  readonly symbol: string
  readonly dimension: Dimension
  /** value in the dimension's base unit = (value + offset) · numerator / denominator, exact by definition. */
  readonly numerator: number
  readonly denominator: number
  readonly offset: number
  /** Other spellings that site tables may use. */
  readonly aliases: readonly string[]
}

/** y = (x + addBefore) · numerator / denominator − subtractAfter */
export interface Conversion {
  readonly addBefore: number
  readonly numerator: number
  readonly denominator: number
  readonly subtractAfter: number
}

const unit = (
  dimension: Dimension,
  code: string,
  symbol: string,
  numerator = 1,
  denominator = 1,
  aliases: readonly string[] = [],
  offset = 0,
): Unit => ({ code, symbol, dimension, numerator, denominator, offset, aliases })

// lbf = 0.45359237 kg × 9.80665 m/s², in = 0.0254 m, ft = 0.3048 m: exact by international agreement (1959, 1901).
const poundForce = 0.45359237 * 9.80665

/**
 * Units known here, each by its exact definition in the base unit of its dimension (Pa, m, rad, N, K, s, Hz …).
 * Factors are kept as numerator and denominator so that decimal ones stay exact: 1234 mm is 1.234 m.
 */
export const units: readonly Unit[] = [
  unit('pressure', 'Pa', 'Pa'),
  unit('pressure', 'hPa', 'hPa', 100),
  unit('pressure', 'mbar', 'mbar', 100),
  unit('pressure', 'kPa', 'kPa', 1000),
  unit('pressure', 'MPa', 'MPa', 1_000_000),
  unit('pressure', 'GPa', 'GPa', 1_000_000_000),
  unit('pressure', 'kN/m2', 'kN/m²', 1000, 1, ['kN/m²']),
  unit('pressure', 'bar', 'bar', 100_000),
  unit('pressure', 'm[H2O]', 'm H₂O', 9806.65),
  unit('pressure', 'cm[H2O]', 'cm H₂O', 98.0665),
  unit('pressure', 'mm[H2O]', 'mm H₂O', 9.80665),
  unit('pressure', 'kgf/cm2', 'kgf/cm²', 98_066.5, 1, ['kgf/cm²']),
  unit('pressure', "[ft_i'H2O]", 'ft H₂O', 9806.65 * 0.3048, 1, ['ft[H2O]']),
  unit('pressure', "[in_i'H2O]", 'in H₂O', 9806.65 * 0.0254, 1, ['in[H2O]']),
  unit('pressure', 'mm[Hg]', 'mm Hg', 133.322387415),
  unit('pressure', "[in_i'Hg]", 'in Hg', 133.322387415 * 25.4, 1, ['in[Hg]']),
  unit('pressure', 'atm', 'atm', 101_325),
  unit('pressure', 'Torr', 'Torr', 101_325, 760, ['torr']),
  unit('pressure', '[psi]', 'psi', poundForce, 0.0254 * 0.0254, ['psi']),
  unit('pressure', '[lbf_av]/[sft_i]', 'lbf/ft²', poundForce, 0.3048 * 0.3048, ['psf']),
  unit('pressure', 'k[lbf_av]/[sft_i]', 'kip/ft²', poundForce * 1000, 0.3048 * 0.3048, ['ksf']),
  // UCUM has short tons of mass only; this is the force of one, 2000 lbf, on a square foot.
  unit('pressure', 'tsf', 'US ton/ft²', poundForce * 2000, 0.3048 * 0.3048),
  unit('length', 'm', 'm'),
  unit('length', 'cm', 'cm', 1, 100),
  unit('length', 'mm', 'mm', 1, 1000),
  unit('length', 'um', 'µm', 1, 1_000_000),
  unit('length', 'km', 'km', 1000),
  unit('length', '[in_i]', 'in', 254, 10_000, ['in']),
  unit('length', '[mil_i]', 'mil', 254, 10_000_000),
  unit('length', '[ft_i]', 'ft', 3048, 10_000, ['ft']),
  unit('length', '[ft_us]', 'US survey ft', 1200, 3937),
  unit('angle', 'rad', 'rad'),
  unit('angle', 'mrad', 'mrad', 1, 1000),
  unit('angle', 'deg', '°', Math.PI, 180),
  unit('angle', "'", '′', Math.PI, 10_800),
  unit('angle', "''", '″', Math.PI, 648_000),
  unit('angle', 'gon', 'gon', Math.PI, 200),
  unit('slope', 'm/m', 'm/m'),
  unit('slope', 'mm/m', 'mm/m', 1, 1000),
  unit('slope', 'um/m', 'µm/m', 1, 1_000_000, ['microstrain', 'µm/m']),
  unit('slope', '[in_i]/[ft_i]', 'in/ft', 1, 12, ['in/ft']),
  unit('force', 'N', 'N'),
  unit('force', 'kN', 'kN', 1000),
  unit('force', 'MN', 'MN', 1_000_000),
  unit('force', 'kgf', 'kgf', 9.80665),
  unit('force', 'tf', 'tf', 9806.65),
  unit('force', '[lbf_av]', 'lbf', poundForce, 1, ['lbf']),
  unit('force', 'k[lbf_av]', 'kip', poundForce * 1000, 1, ['kip']),
  unit('temperature', 'K', 'K'),
  unit('temperature', 'Cel', '°C', 1, 1, ['degC', '°C'], 273.15),
  unit('temperature', '[degF]', '°F', 5, 9, ['degF', '°F'], 459.67),
  unit('time', 's', 's'),
  unit('time', 'ms', 'ms', 1, 1000),
  unit('time', 'us', 'µs', 1, 1_000_000, ['µs']),
  unit('time', 'min', 'min', 60),
  unit('time', 'h', 'h', 3600),
  unit('time', 'd', 'd', 86_400),
  unit('frequency', 'Hz', 'Hz'),
  unit('frequency', 'kHz', 'kHz', 1000),
  unit('frequency-squared', 'Hz2', 'Hz²', 1, 1, ['Hz²']),
  // UCUM reads kHz2 as (kHz)², which is 1 000 000 Hz²; the trade's squared frequency divided by 1000 is 10*3.Hz2.
  unit('frequency-squared', '10*3.Hz2', 'Hz²/1000', 1000, 1, ['Hz2/1000', 'Hz²/1000']),
  unit('frequency-squared', 'kHz2', 'kHz²', 1_000_000, 1, ['kHz²']),
  unit('resistance', 'Ohm', 'Ω', 1, 1, ['ohm', 'Ω']),
  unit('resistance', 'kOhm', 'kΩ', 1000, 1, ['kohm', 'kΩ']),
  unit('current', 'A', 'A'),
  unit('current', 'mA', 'mA', 1, 1000),
  unit('voltage', 'V', 'V'),
  unit('voltage', 'mV', 'mV', 1, 1000),
  unit('voltage-ratio', 'V/V', 'V/V'),
  unit('voltage-ratio', 'mV/V', 'mV/V', 1, 1000),
  unit('unit-weight', 'kN/m3', 'kN/m³'),
  unit('unit-weight', '[lbf_av]/[cft_i]', 'lbf/ft³', poundForce / 1000, 0.3048 ** 3, ['pcf']),
  unit('transmissivity', 'm2/s', 'm²/s'),
  unit('flow', 'm3/s', 'm³/s'),
  unit('flow', 'L/s', 'l/s', 1, 1000, ['l/s']),
  unit('flow', 'L/min', 'l/min', 1, 60_000, ['l/min']),
  unit('flow', 'm3/h', 'm³/h', 1, 3600, ['m³/h']),
  unit('flow', '[gal_us]/min', 'US gal/min', 3.785411784, 60_000),
  unit('flow', '[gal_br]/min', 'imp gal/min', 4.54609, 60_000),
  unit('proportion', '1', '1'),
  unit('proportion', '%', '%', 1, 100),
  unit('count', '{count}', 'counts', 1, 1, ['count', 'counts']),
]

const byName: ReadonlyMap<string, Unit> = new Map(
  units.flatMap((known) => [known.code, ...known.aliases].map((name) => [name, known] as const)),
)

/** The unit written as a UCUM code or one of its other spellings; undefined when nobody knows it here. */
export const findUnit = (name: string): Unit | undefined => byName.get(name)

/** True when both names are the same unit, however spelt; unknown names only match themselves. */
export const isSameUnit = (one: string, other: string): boolean =>
  (findUnit(one)?.code ?? one) === (findUnit(other)?.code ?? other)

/** How a unit is shown to people; an unknown one as it was written. */
export const unitSymbol = (name: string): string => findUnit(name)?.symbol ?? name

/** The arithmetic from one unit to another; refused when either is unknown or they measure different things. */
export function findConversion(from: string, to: string): Outcome<Conversion> {
  const source = findUnit(from)
  const target = findUnit(to)
  if (!source) return reject(unknownUnit(from))
  if (!target) return reject(unknownUnit(to))
  if (source.dimension !== target.dimension)
    return reject({
      code: 'units-of-different-kinds',
      message: `${from} measures ${words(source)} and ${to} measures ${words(target)}; one cannot become the other. Correct the unit.`,
      value: `${from} to ${to}`,
      expected: `a unit of ${words(target)}`,
    })
  if (source.code === target.code)
    return accept({ addBefore: 0, numerator: 1, denominator: 1, subtractAfter: 0 })
  const numerator = source.numerator * target.denominator
  const denominator = source.denominator * target.numerator
  const divisor = commonDivisor(numerator, denominator)
  return accept({
    addBefore: source.offset,
    numerator: numerator / divisor,
    denominator: denominator / divisor,
    subtractAfter: target.offset,
  })
}

/** y from x by a conversion, in the one order of operations that SQL uses too. */
export const applyConversion = (x: number, by: Conversion): number =>
  ((x + by.addBefore) * by.numerator) / by.denominator - by.subtractAfter

/** A value in another unit. Refused, with the reason, for unknown units and units of different kinds. */
export function convert(value: number, from: string, to: string): Outcome<number> {
  const conversion = findConversion(from, to)
  return conversion.ok ? accept(applyConversion(value, conversion.value)) : conversion
}

const words = (known: Unit): string => known.dimension.replaceAll('-', ' ')

const unknownUnit = (name: string) => ({
  code: 'unit-unknown',
  message: `The unit “${name}” is not known. Write a UCUM code such as kPa, mm, deg, Cel or Ohm.`,
  value: name,
  expected: 'a UCUM code of a known unit',
})

/** Greatest common divisor of two whole numbers; 1 when either is not whole. */
function commonDivisor(one: number, other: number): number {
  if (!Number.isSafeInteger(one) || !Number.isSafeInteger(other)) return 1
  let [larger, smaller] = [one, other]
  while (smaller !== 0) [larger, smaller] = [smaller, larger % smaller]
  return larger
}
