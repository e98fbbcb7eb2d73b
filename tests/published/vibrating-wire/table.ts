import { standardAir } from '#domain/reduction/atmosphere.ts'
import { deriveValues } from '#domain/reduction/derive-values.ts'
import { pressureHeadMetres } from '#domain/reduction/hydrostatics.ts'
import { clampedWireFrequencyHz, stringFrequencyHz } from '#domain/reduction/wire-mechanics.ts'
import { mean } from '#domain/statistics/spread.ts'
import { strutBundle } from '../../domain/reduction/sample-bundles.ts'
import type { PublishedTable } from '../published-row.ts'
import { invert, reduce, step } from '../run-steps.ts'
import { vibratingWireRows } from './rows.ts'

const toHertz = step('period-to-frequency')
const squared = step('frequency-squared')

const pressureLine = (kpaPerDigit: number, zeroDigits: number) =>
  step('linear', { factor: -kpaPerDigit, offset: kpaPerDigit * zeroDigits, unit: 'kPa' })

const wireStrain = (given: { L_m: number; rho_kg_m3: number; E_Pa: number }) =>
  step('wire-strain', {
    lengthMetres: given.L_m,
    densityKgPerM3: given.rho_kg_m3,
    modulusGpa: given.E_Pa / 1e9,
  })

/** A load cell of three gauges that each have their own zero, averaged as those of a strut are. */
function cellForce(zeros: readonly number[], read: readonly number[], kilonewtonsPerDigit: number) {
  const cell = strutBundle(zeros.length)
  const members = cell.slots.map(({ series }, gauge) => {
    const chain = [
      step('zero', { value: zeros[gauge] ?? Number.NaN }),
      step('linear', { factor: -kilonewtonsPerDigit, offset: 0, unit: 'kN' }),
    ]
    return [series[0] ?? '', { value: reduce(read[gauge] ?? Number.NaN, chain), quality: 0 }] as const
  })
  return deriveValues(cell, new Map(members))[0]?.value
}

export const vibratingWire: PublishedTable = {
  area: 'vibrating wire',
  rows: vibratingWireRows,
  computed: {
    'VW-01': ({ period_us }) => ({
      f_Hz: reduce(period_us, [toHertz]),
      digits: reduce(period_us, [toHertz, squared]),
    }),
    'VW-02': ({ f_Hz }) => ({ period_us: invert(f_Hz, toHertz), digits: reduce(f_Hz, [squared]) }),
    'VW-03': ({ f_Hz }) => reduce(f_Hz, [squared]),
    'VW-05': ({ f_Hz }) => ({
      mean_of_digits: mean(f_Hz.map((hertz: number) => reduce(hertz, [squared]))),
      digits_of_mean_f: reduce(mean(f_Hz), [squared]),
    }),
    'VW-06': ({ G_kPa_per_digit, R0_digits, R1_digits }) =>
      reduce(R1_digits, [pressureLine(G_kPa_per_digit, R0_digits)]),
    'VW-08': (given) =>
      reduce(
        given.R1_digits,
        [
          pressureLine(given.G_kPa_per_digit, given.R0_digits),
          step('thermal', { factor: given.K_kPa_per_C, reference: given.T0_C }),
          step('barometric', { reference: given.S0_kPa, maximumAgeMinutes: 60 }),
        ],
        { temperatureDegC: given.T1_C, barometerKpa: given.S1_kPa },
      ),
    // The mistake: the zero of the factory's air is kept, and no barometric term follows.
    'VW-10': ({ H_factory_m, H_site_m }) => {
      const airKpa = (metres: number) => standardAir(metres).pressurePa / 1000
      const dP_kPa = reduce(airKpa(H_site_m), [step('zero', { value: airKpa(H_factory_m) })])
      return { dP_kPa, head_m: pressureHeadMetres(dP_kPa, 9.80665) }
    },
    'VW-13': (given) => {
      const chain = [squared, wireStrain(given)]
      return reduce(given.f1_Hz, [...chain, step('zero', { value: reduce(given.f0_Hz, chain) })])
    },
    'VW-14': (given) => invert(invert(given.strain * 1e6, wireStrain(given)), squared),
    'VW-16': thermalStrains,
    'VW-17': thermalStrains,
    'VW-18': (given) => {
      const wire = {
        lengthMetres: given.L_m,
        diameterMetres: given.d_m,
        densityKgPerM3: given.rho_kg_m3,
        modulusPa: given.E_Pa,
        stressPa: given.sigma_Pa,
      }
      const [f_ideal_Hz, f_exact_Hz] = [stringFrequencyHz(wire), clampedWireFrequencyHz(wire)]
      return { f_ideal_Hz, f_exact_Hz, ratio: f_exact_Hz / f_ideal_Hz }
    },
    // Whole differences: a derivative would leave out 0.1² / 1000 of them.
    'VW-19': ({ f_Hz, df_Hz, G_kPa_per_digit }) => {
      const across = (...chain: Parameters<typeof reduce>[1]) =>
        reduce(f_Hz + df_Hz, chain) - reduce(f_Hz, chain)
      const line = step('linear', { factor: G_kPa_per_digit, offset: 0, unit: 'kPa' })
      return { digits: across(squared), kPa: across(squared, line) }
    },
    'VW-20': ({ R0, R1, G_kN_per_digit }) => cellForce(R0, R1, G_kN_per_digit),
    'VW-21': ({ period_us }) => ({
      f_of_mean_period_Hz: reduce(mean(period_us), [toHertz]),
      mean_f_Hz: mean(period_us.map((micros: number) => reduce(micros, [toHertz]))),
    }),
  },
}

function thermalStrains(given: {
  d_eps_wire: number
  dT_C: number
  alpha_wire: number
  alpha_structure: number
}) {
  const { d_eps_wire, dT_C, alpha_wire: wire, alpha_structure: structure } = given
  const warmed = { temperatureDegC: 10 + dT_C }
  return {
    total: reduce(d_eps_wire, [step('strain-temperature', { wire, reference: 10 })], warmed),
    mechanical: reduce(d_eps_wire, [step('strain-temperature', { wire, structure, reference: 10 })], warmed),
  }
}
