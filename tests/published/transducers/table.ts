import { loopCurrentState } from '#domain/reduction/loop-current.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { reduce, step } from '../run-steps.ts'
import { transducersRows } from './rows.ts'

const loopKpa = ({ I_mA, lo, hi }: PublishedInputs) =>
  reduce(I_mA, [step('current-span', { low: lo, high: hi, unit: 'kPa' })])

const cellForce = (given: PublishedInputs, excitationVolts: number) =>
  reduce(given.out_mV / excitationVolts, [
    step('ratio-bridge', {
      zero: given.zero_mV_per_V,
      sensitivity: given.sensitivity_mV_per_V,
      capacity: given.capacity_kN,
      unit: 'kN',
    }),
  ])

export const transducers: PublishedTable = {
  area: 'transducers',
  rows: transducersRows,
  computed: {
    'LN-01': loopKpa,
    'LN-02': loopKpa,
    'LN-04': loopKpa,
    'LN-05': ({ I_mA }) => I_mA.map(loopCurrentState),
    'LN-06': ({ V, lo, hi }) =>
      reduce(V, [step('voltage-span', { lowVolts: 0, highVolts: 10, low: lo, high: hi, unit: 'mm' })]),
    'LN-07': ({ V, R_ohm }) => reduce(V, [step('shunt', { ohms: R_ohm })]),
    'LN-08': (given) => cellForce(given, given.excitation_V),
    // The mistake: the output is divided by the excitation that was assumed, not by the one that was there.
    'LN-09': (given) => cellForce(given, given.assumed_excitation_V),
    'LN-10': ({ Vr_mV_per_V, GF }) => reduce(Vr_mV_per_V, [step('full-bridge', { gaugeFactor: GF })]),
    // Its sign: the output falls in tension.
    'LN-11': ({ Vr_V_per_V, GF }) =>
      reduce(Vr_V_per_V, [
        step('unit', { from: 'V/V', to: 'mV/V' }),
        step('quarter-bridge', { gaugeFactor: GF, sense: -1 }),
      ]),
  },
}
