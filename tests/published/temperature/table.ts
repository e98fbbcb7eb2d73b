import { platinumToleranceDegC } from '#domain/reduction/platinum-tolerance.ts'
import { betaBetween } from '#domain/reduction/steps/beta.ts'
import { platinumQuadratic } from '#domain/reduction/steps/callendar-van-dusen.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { invert, reduce, step } from '../run-steps.ts'
import { temperatureRows } from './rows.ts'

/** The usual 3 kΩ thermistor, where a row gives no coefficients. */
const usual = { A: 1.4051e-3, B: 2.369e-4, C: 1.019e-7 }
const thermistor = ({ A, B, C }: typeof usual = usual) => step('steinhart-hart', { a: A, b: B, c: C })
const platinum = (r0 = 100) => step('callendar-van-dusen', { r0 })

const thermistorCelsius = ({ R_ohm, ...curve }: PublishedInputs) => reduce(R_ohm, [thermistor(curve)])
const platinumOhms = ({ T_C, R0_ohm }: PublishedInputs) => invert(T_C, platinum(R0_ohm))
const platinumCelsius = ({ R_ohm, R0_ohm }: PublishedInputs) => reduce(R_ohm, [platinum(R0_ohm)])
/** The mistake: the equation for above 0 °C is used below it. */
const quadraticCelsius = ({ R_ohm }: PublishedInputs) => platinumQuadratic(R_ohm / 100)

const leadError = (celsius: number, extraOhm: number, curve: ReturnType<typeof step>) =>
  reduce(invert(celsius, curve) + extraOhm, [curve]) - celsius

export const temperature: PublishedTable = {
  area: 'temperature',
  rows: temperatureRows,
  computed: {
    'TH-02': thermistorCelsius,
    'TH-03': thermistorCelsius,
    'TH-06': thermistorCelsius,
    'TH-07': thermistorCelsius,
    'TH-08': thermistorCelsius,
    'TH-09': thermistorCelsius,
    'TH-10': ({ T_C, ...curve }) => T_C.map((celsius: number) => invert(celsius, thermistor(curve))),
    'TH-11': ({ T_C, ...curve }) => invert(T_C, thermistor(curve)),
    // The mistake: a resistance whose natural logarithm is the decimal one of what was read.
    'TH-12': ({ R_ohm }) => reduce(Math.exp(Math.log10(R_ohm)), [thermistor()]),
    'TH-15': ({ T_C }) => {
      const at = (celsius: number) => [invert(celsius, thermistor()), celsius] as const
      const [r25] = at(25)
      const model = step('beta', { r25, beta: betaBetween(at(25), at(50)) })
      return reduce(at(T_C)[0], [model]) - T_C
    },
    'TH-16': ({ R_lead_ohm, T_C }) =>
      T_C.map((celsius: number) => leadError(celsius, R_lead_ohm, thermistor())),
    'RTD-01': platinumOhms,
    'RTD-02': platinumOhms,
    'RTD-03': platinumOhms,
    'RTD-04': platinumOhms,
    'RTD-05': platinumOhms,
    'RTD-06': platinumOhms,
    'RTD-07': platinumOhms,
    'RTD-08': platinumOhms,
    'RTD-09': platinumOhms,
    'RTD-10': platinumOhms,
    'RTD-11': platinumCelsius,
    'RTD-12': platinumCelsius,
    'RTD-13': quadraticCelsius,
    'RTD-14': quadraticCelsius,
    'RTD-16': ({ T_C }) => ({ A: platinumToleranceDegC('A', T_C), B: platinumToleranceDegC('B', T_C) }),
    'RTD-18': ({ T_C, R0_ohm }) => T_C.map((celsius: number) => invert(celsius, platinum(R0_ohm))),
    'RTD-17': ({ R_extra_ohm, T_C }) => leadError(T_C, R_extra_ohm, platinum()),
  },
}
