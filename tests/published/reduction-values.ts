import type { CalibrationStep, Companions } from '#domain/reduction/chain.ts'

/**
 * Values that reduction must reproduce, each with where it comes from.
 * published: printed in a standard, paper or textbook. reference software: computed with separate software from a
 * definition or first principles. common practice: a rule of the trade without a published source.
 * Coefficients are invented for the examples and belong to no instrument.
 */
export type Kind = 'published' | 'reference software' | 'common practice' | 'from memory'

interface Sourced {
  readonly id: string
  readonly what: string
  readonly kind: Kind
  readonly source: string
}

export interface ChainValue extends Sourced {
  readonly raw: number
  readonly steps: readonly CalibrationStep[]
  readonly companions?: Partial<Companions>
  readonly expected: number
  readonly tolerance: number
}

const firstPrinciples = 'first principles, computed twice with separate software (Python, Node.js)'

const squared: readonly CalibrationStep[] = [{ kind: 'frequency-squared', parameters: {} }]
const fromPeriod: readonly CalibrationStep[] = [{ kind: 'period-to-frequency', parameters: {} }]

// P = G (R0 − R1) as a straight line in R1: factor −G, offset G R0 (G 0.158 kPa a unit, R0 8900).
const pressureLine: CalibrationStep = {
  kind: 'linear',
  parameters: { factor: -0.158, offset: 0.158 * 8900, unit: 'kPa' },
}

// Strain of a wire, ε = 4 L² ρ f² / E, in µm/m per f²/1000.
const wireStrain = (lengthMetres: number, densityKgPerM3: number, modulusPa: number): CalibrationStep => ({
  kind: 'linear',
  parameters: {
    factor: ((4 * lengthMetres ** 2 * densityKgPerM3) / modulusPa) * 1000 * 1e6,
    offset: 0,
    unit: 'um/m',
  },
})

/** Raw readings through whole chains. */
export const chainValues: readonly ChainValue[] = [
  {
    id: 'VW-01 frequency',
    what: 'period 500 µs to frequency',
    kind: 'common practice',
    source: 'definition f = 1 000 000 / T',
    raw: 500,
    steps: fromPeriod,
    expected: 2000,
    tolerance: 1e-9,
  },
  {
    id: 'VW-01 squared',
    what: 'period 500 µs to frequency squared / 1000',
    kind: 'common practice',
    source: 'definition f² / 1000; trade usage, no published standard',
    raw: 500,
    steps: [...fromPeriod, ...squared],
    expected: 4000,
    tolerance: 1e-9,
  },
  {
    id: 'VW-03',
    what: '2904.5 Hz squared / 1000',
    kind: 'common practice',
    source: 'definition f² / 1000',
    raw: 2904.5,
    steps: squared,
    expected: 8436.12025,
    tolerance: 1e-6,
  },
  {
    id: 'VW-06',
    what: 'linear pressure with a zero reading: pressure relaxes the wire, so the squared frequency falls',
    kind: 'common practice',
    source: 'P = G (R0 − R1); constructed example',
    raw: 8400,
    steps: [pressureLine],
    expected: 79,
    tolerance: 1e-9,
  },
  {
    id: 'VW-08',
    what: 'the same with thermal and barometric terms: a falling barometer raises the corrected value',
    kind: 'common practice',
    source: 'P = G (R0 − R1) + K (T1 − T0) − (S1 − S0); constructed example',
    raw: 8400,
    steps: [
      pressureLine,
      { kind: 'thermal', parameters: { factor: -0.045, reference: 12 } },
      { kind: 'barometric', parameters: { reference: 101.3, maximumAgeMinutes: 60 } },
    ],
    companions: { temperatureDegC: 9.5, barometerKpa: 99.1 },
    expected: 81.3125,
    tolerance: 1e-9,
  },
  {
    id: 'VW-10',
    what: 'sea-level zero kept 1000 m up: suction that is not there',
    kind: 'reference software',
    source: 'ISO 2533:1975 pressures 101.325 and 89.874563 kPa; computed twice with separate software',
    raw: 89.874563,
    steps: [{ kind: 'zero', parameters: { value: 101.325 } }],
    expected: -11.4504370838,
    tolerance: 0.0005,
  },
  {
    id: 'VW-13',
    what: 'strain change between 800 and 850 Hz (L 0.15 m, ρ 7850 kg/m³, E 200 GPa); tension positive',
    kind: 'reference software',
    source: firstPrinciples,
    raw: 850,
    steps: [
      ...squared,
      wireStrain(0.15, 7850, 2e11),
      {
        kind: 'zero',
        parameters: { value: ((4 * 0.15 ** 2 * 7850) / 2e11) * 800 ** 2 * 1e6 },
      },
    ],
    expected: 291.43125,
    tolerance: 1e-6,
  },
  {
    id: 'VW-14',
    what: 'a wire at 35 Hz has the strain 4.9 × 10⁻⁴ (L 1 m, ρ 9000 kg/m³, E 90 GPa)',
    kind: 'published',
    source: 'examination problem on f = (1/2L) √(E ε / ρ), recomputed',
    raw: 35,
    steps: [...squared, wireStrain(1, 9000, 9e10)],
    expected: 490,
    tolerance: 1e-9,
  },
  {
    id: 'VW-16',
    what: 'a structure free to expand has no mechanical strain: −40 µm/m on the wire, 20 K, α 12 and 10 µm/m/K',
    kind: 'reference software',
    source: firstPrinciples,
    raw: -40,
    steps: [{ kind: 'thermal', parameters: { factor: 12 - 10, reference: 0 } }],
    companions: { temperatureDegC: 20 },
    expected: 0,
    tolerance: 1e-9,
  },
  {
    id: 'VW-17 total',
    what: 'total strain: Δε + α of the wire × ΔT',
    kind: 'reference software',
    source: firstPrinciples,
    raw: 100,
    steps: [{ kind: 'thermal', parameters: { factor: 12.2, reference: 10 } }],
    companions: { temperatureDegC: 0 },
    expected: -22,
    tolerance: 1e-9,
  },
  {
    id: 'VW-17 mechanical',
    what: 'mechanical strain: Δε + (α of the wire − α of the structure) ΔT',
    kind: 'reference software',
    source: firstPrinciples,
    raw: 100,
    steps: [{ kind: 'thermal', parameters: { factor: 12.2 - 10.4, reference: 10 } }],
    companions: { temperatureDegC: 0 },
    expected: 82,
    tolerance: 1e-9,
  },
  ...[
    { id: 'LN-01', milliamps: 12, expected: 350 },
    { id: 'LN-02 below the span, kept: small negative pressures are real', milliamps: 3.8, expected: -8.75 },
    { id: 'LN-04 above the span, kept', milliamps: 20.5, expected: 721.875 },
  ].map(
    ({ id, milliamps, expected }): ChainValue => ({
      id,
      what: `${milliamps} mA on a 4 to 20 mA loop of 0 to 700 kPa`,
      kind: 'reference software',
      source: 'y = low + (I − 4) / 16 (high − low); live zero of IEC 60381-1 from memory',
      raw: milliamps,
      steps: [{ kind: 'current-span', parameters: { low: 0, high: 700, unit: 'kPa' } }],
      expected,
      tolerance: 1e-9,
    }),
  ),
  {
    id: 'LN-06',
    what: '7.5 V on 0 to 10 V for −50 to 50 mm',
    kind: 'reference software',
    source: firstPrinciples,
    raw: 7.5,
    steps: [
      { kind: 'voltage-span', parameters: { lowVolts: 0, highVolts: 10, low: -50, high: 50, unit: 'mm' } },
    ],
    expected: 25,
    tolerance: 1e-9,
  },
  {
    id: 'LN-07',
    what: '3 V across 250 Ω is 12 mA',
    kind: 'reference software',
    source: "Ohm's law",
    raw: 3,
    steps: [{ kind: 'linear', parameters: { factor: 1000 / 250, offset: 0, unit: 'mA' } }],
    expected: 12,
    tolerance: 1e-9,
  },
  {
    id: 'LN-08',
    what: '6.56 mV at 5 V on a 1000 kN cell of 2 mV/V with zero 0.012 mV/V',
    kind: 'reference software',
    source: firstPrinciples,
    raw: 6.56 / 5,
    steps: [
      {
        kind: 'ratio-bridge',
        parameters: { zero: 0.012, sensitivity: 2, capacity: 1000, unit: 'kN' },
      },
    ],
    expected: 650,
    tolerance: 1e-9,
  },
  {
    id: 'LN-09',
    what: 'the same cell when 4.9 V is taken for 5 V: 13 kN wrong, so divide by the measured excitation',
    kind: 'reference software',
    source: firstPrinciples,
    raw: 6.4288 / 5,
    steps: [
      {
        kind: 'ratio-bridge',
        parameters: { zero: 0.012, sensitivity: 2, capacity: 1000, unit: 'kN' },
      },
    ],
    expected: 636.88,
    tolerance: 1e-9,
  },
  {
    id: 'LN-10',
    what: 'full bridge of four active arms, gauge factor 2.05: 2.05 mV/V is 1000 µm/m',
    kind: 'reference software',
    source: 'Wheatstone bridge, Vr = gauge factor × strain',
    raw: 2.05,
    steps: [{ kind: 'linear', parameters: { factor: 1000 / 2.05, offset: 0, unit: 'um/m' } }],
    expected: 1000,
    tolerance: 1e-9,
  },
  {
    id: 'ATM-21',
    what: 'absolute sensor 151.325 kPa under a barometer of 98.5 kPa',
    kind: 'reference software',
    source: 'difference of absolute pressures',
    raw: 151.325,
    steps: [{ kind: 'barometric', parameters: { reference: 0, maximumAgeMinutes: 60 } }],
    companions: { barometerKpa: 98.5 },
    expected: 52.825,
    tolerance: 1e-6,
  },
  {
    id: 'EX-09',
    what: 'a 20 m steel rod 10 K warmer is 2.4 mm longer',
    kind: 'reference software',
    source: firstPrinciples,
    raw: 0,
    steps: [{ kind: 'thermal', parameters: { factor: 20_000 * 1.2e-5, reference: 10 } }],
    companions: { temperatureDegC: 20 },
    expected: 2.4,
    tolerance: 1e-9,
  },
  {
    id: 'IN-11',
    what: 'a 2 m segment from 10.0° to 10.1°: L (sin θ − sin θ₀), not L sin (θ − θ₀) = 3.4907 mm',
    kind: 'reference software',
    source: firstPrinciples,
    raw: 10.1,
    steps: [
      { kind: 'gauge-length-sine', parameters: { length: 2 } },
      { kind: 'zero', parameters: { value: 2000 * Math.sin(Math.PI / 18) } },
    ],
    expected: 3.43709685011,
    tolerance: 1e-6,
  },
  {
    id: 'TI-03',
    what: '1° over 1 m by the sine',
    kind: 'reference software',
    source: firstPrinciples,
    raw: 1,
    steps: [{ kind: 'gauge-length-sine', parameters: { length: 1 } }],
    expected: 17.4524064373,
    tolerance: 1e-6,
  },
]

export const thermistor = {
  kind: 'common practice' as Kind,
  source:
    'Steinhart & Hart (1968) equation; coefficients of the usual 3 kΩ at 25 °C thermistor are common practice without a published source; values computed, the inverse by Cardano',
  parameters: { a: 1.4051e-3, b: 2.369e-4, c: 1.019e-7 },
  /** Ω, °C */
  temperatures: [
    ['TH-02', 10_000, -0.421174719224],
    ['TH-03', 5000, 13.7295975088],
    ['TH-06', 500, 71.4638842646],
    ['TH-07', 250, 93.1118702247],
    ['TH-08', 100_000, -39.9417166676],
    ['TH-09', 201_100, -50.1139078474],
  ],
  temperatureTolerance: 1e-6,
  /** TH-10, TH-11: °C, Ω */
  resistances: [
    [-50, 199_477.1291],
    [-40, 100_387.12],
    [-30, 52_885.7127],
    [-20, 29_045.9125],
    [-10, 16_570.2638],
    [0, 9787.1434],
    [10, 5967.5915],
    [20, 3746.4867],
    [25, 2998.95312799],
    [30, 2416.0803],
    [40, 1597.135],
    [50, 1080.1526],
    [60, 746.0896],
    [70, 525.5068],
    [80, 376.9025],
    [90, 274.9035],
    [100, 203.6664],
    [110, 153.1011],
    [120, 116.6619],
    [130, 90.0285],
    [140, 70.3026],
    [150, 55.5103],
  ],
  resistanceTolerance: 0.01,
  /** TH-12: what a decimal logarithm would give at 3000 Ω. */
  withDecimalLogarithm: 174.655198642,
  /** TH-16: °C of error from 10 Ω of lead at 5 and 60 °C. */
  leadErrors: [
    [5, -0.0265360167272],
    [60, -0.369469705064],
  ],
} as const

export const platinum = {
  kind: 'published' as Kind,
  source:
    'IEC 60751, A 3.9083e-3, B −5.775e-7, C −4.183e-12, and its two-decimal table as publicly transcribed; more decimals computed',
  /** id, °C, Ω by the equation, Ω in the printed table */
  resistances: [
    ['RTD-01', -200, 18.52008, 18.52],
    ['RTD-02', -100, 60.25584, 60.26],
    ['RTD-03', -50, 80.306281875, 80.31],
    ['RTD-04', 0, 100, 100],
    ['RTD-05', 50, 119.397125, 119.4],
    ['RTD-06', 100, 138.5055, 138.51],
    ['RTD-07', 200, 175.856, 175.86],
    ['RTD-08', 400, 247.092, 247.09],
    ['RTD-09', 600, 313.708, 313.71],
    ['RTD-10', 850, 390.481125, 390.48],
  ],
  /** RTD-11, RTD-12 (reference software): Ω, °C */
  temperatures: [
    [138.5055, 100],
    [60.25584, -100],
  ],
  /** RTD-13, RTD-14: what the quadratic alone would give. */
  quadraticAlone: [
    [60.25584, -100.207906714],
    [18.52008, -202.424517501],
  ],
  /** RTD-17: error of 1.5 Ω of lead at 20 °C. */
  leadError: [20, 1.5, 3.86302326854],
} as const

export const unitFactors = {
  kind: 'reference software' as Kind,
  source:
    'exact SI definitions (lbf = 0.45359237 kg × 9.80665 m/s², in = 25.4 mm), agreeing with GNU units 2.22; tolerance 1e-9 relative',
  factors: [
    ['UN-01', '[psi]', 'kPa', 6.89475729317],
    ['UN-02', 'k[lbf_av]/[sft_i]', 'kPa', 47.8802589803],
    ['UN-04', 'bar', 'kPa', 100],
    ['UN-05', 'mbar', 'kPa', 0.1],
    ['UN-05', 'hPa', 'kPa', 0.1],
    ['UN-07', 'm[H2O]', 'kPa', 9.80665],
    ['UN-08', "[ft_i'H2O]", 'kPa', 2.98906692],
    ['UN-09', "[in_i'H2O]", 'kPa', 0.24908891],
    ['UN-10', 'mm[Hg]', 'kPa', 0.133322387415],
    ['UN-11', "[in_i'Hg]", 'kPa', 3.38638864034],
    ['UN-12', 'atm', 'kPa', 101.325],
    ['UN-15', '[lbf_av]/[cft_i]', 'kN/m3', 0.157087463846],
    ['UN-16', 'k[lbf_av]', 'kN', 4.44822161526],
    ['UN-19', '[ft_us]', 'm', 0.304800609601],
    ['UN-21', 'gon', 'deg', 0.9],
    ['UN-22', '[gal_us]/min', 'L/s', 0.0630901964],
    ['UN-23', '[gal_br]/min', 'L/s', 0.0757681666667],
    ['UN-25', '[mil_i]', 'mm', 0.0254],
    ['TI-01', "''", 'rad', 4.8481368111e-6],
  ],
} as const

export const hydrostatics = {
  kind: 'reference software' as Kind,
  source: `${firstPrinciples}; 9.80665 kN/m³ is the conventional unit weight, 9.81 the customary one, 9.78907 fresh water at 20 °C`,
  /** HY-01, ATM-21, ATM-23: kPa, kN/m³, m */
  heads: [
    [98.0665, 9.80665, 10],
    [98.0665, 9.81, 9.99658511723],
    [98.0665, 9.78907, 10.0179588051],
    [52.825, 9.80665, 5.38665089506],
    [3, 9.80665, 0.305914863893],
    [0.1, 9.80665, 0.0101971621298],
    [30.15544875, 1.025 * 9.80665, 3],
    [1000, 0.9982067 * 9.80665, 102.154815528],
  ],
  /** HY-02, HY-04: level of the tip m, kPa, kN/m³, piezometric level m */
  levels: [
    [87.35, 64.72, 9.80665, 93.9496033304],
    [100, 150, 9.80665, 115.295743195],
    [90, 230, 9.80665, 113.453472898],
    [-14, 98.1, 9.81, -4],
  ],
} as const

export const inPlaceString = {
  kind: 'reference software' as Kind,
  source: firstPrinciples,
  /** IN-12: a string from the top down, toe fixed. */
  lengthsMetres: [1, 2, 2, 3],
  tiltsBefore: [0.5, -0.2, 0.1, 1],
  tiltsNow: [0.8, 0.05, 0.15, 1],
  increments: [5.23564484077, 8.72663186092, 1.74532504304, 0],
  cumulative: [15.7076017447, 10.471956904, 1.74532504304, 0],
  /** IN-13: the second segment silent. */
  cumulativeWithoutSecond: [null, null, 1.74532504304, 0],
} as const

export const means = {
  kind: 'reference software' as Kind,
  source: firstPrinciples,
  /** VW-05: mean of squares is not the square of the mean. */
  frequencies: [2800, 2900, 3000],
  meanOfSquared: 8416.66666667,
  squaredOfMean: 8410,
  /** VW-20 (common practice): three gauges, each against its own zero; 1.75 kN a unit. */
  cellZeros: [7012, 6890, 7105],
  cellNow: [6711, 6602, 6779],
  cellForce: 533.75,
  /** VW-21 */
  periods: [400, 500],
  frequencyOfMeanPeriod: 2222.22222222,
  meanFrequency: 2250,
  /**
   * VW-19: 0.1 Hz at 2900 Hz, in squared frequency and in kPa at 0.158 kPa a unit. These are whole differences;
   * a derivative leaves out 0.1² / 1000 = 1e-5 of them.
   */
  resolutionHz: 0.1,
  resolutionAtHz: 2900,
  resolutionSquared: 0.58001,
  resolutionKpa: 0.0916415799999,
} as const
