import { numberText, quantityText } from '../number-text.ts'
import { numberOf } from '../parameter.ts'
import { platinumToleranceDegC } from '../platinum-tolerance.ts'
import { sqlBind, sqlNumber } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

// IEC 60751 constants for industrial platinum.
const A = 3.9083e-3
const B = -5.775e-7
const C = -4.183e-12

// The standard covers −200 to 850 °C: ratios 0.1852008 to 3.90481125, given a hair's breadth.
const lowestRatio = 0.185
const highestRatio = 3.905

// From the quadratic's 2.4 °C at −200 °C, quadratic convergence needs three; the fourth costs nothing.
const newtonSteps = 4

/**
 * Resistance of a platinum thermometer in Ω to °C, r0 its resistance at 0 °C. Above 0 °C the quadratic,
 * below it the fourth-degree equation by Newton's method. Null outside −200 to 850 °C, which the standard
 * does not define: a broken or shorted wire, not a temperature.
 */
export const callendarVanDusen: Step = {
  kind: 'callendar-van-dusen',
  formula: stepParameters['callendar-van-dusen'].formula,
  needs: null,
  unitIn: () => 'Ohm',
  unitOut: () => 'Cel',
  apply: (x, parameters) => temperature(x / numberOf(parameters, 'r0')),
  sql: (x, parameter) => {
    const inside = `case when step_q between ${lowestRatio}::DOUBLE and ${highestRatio}::DOUBLE then step_q end`
    const start = `((${sqlNumber(-A)} + sqrt(${sqlNumber(A * A)} - ${sqlNumber(4 * B)} * (${sqlNumber(1)} - step_r))) / ${sqlNumber(2 * B)})`
    let below = start
    for (let pass = 0; pass < newtonSteps; pass++) below = sqlBind(below, 'step_t', newtonSql)
    return sqlBind(
      `${x} / ${parameter('r0')}`,
      'step_q',
      sqlBind(inside, 'step_r', `case when step_r >= 1 then ${start} else ${below} end`),
    )
  },
  isFault: (x, parameters) => temperature(x / numberOf(parameters, 'r0')) === null,
  faultSql: (x, parameter) =>
    `not (${x} / ${parameter('r0')} between ${lowestRatio}::DOUBLE and ${highestRatio}::DOUBLE)`,
  derivative: (x, parameters) => {
    const r0 = numberOf(parameters, 'r0')
    const celsius = temperature(x / r0)
    return celsius === null ? NaN : 1 / (r0 * ratioSlope(celsius, celsius >= 0 ? 0 : C))
  },
  invert: (y, parameters) =>
    y >= -200 && y <= 850 ? numberOf(parameters, 'r0') * ratio(y, y >= 0 ? 0 : C) : null,
  sentence: (x, y, parameters) => {
    const r0 = numberOf(parameters, 'r0')
    if (y === null)
      return `A resistance of ${quantityText(x, 'Ohm')} is outside what IEC 60751 defines for ${quantityText(r0, 'Ohm')} at 0 °C; the element or a lead is broken or shorted.`
    const cubic = y < 0 ? ` − 4.183 × 10⁻¹² × (t − 100) × t³` : ''
    return `Platinum thermometer, IEC 60751: t = ${quantityText(y, 'Cel')} solves ${numberText(r0)} × (1 + 0.0039083 × t − 5.775 × 10⁻⁷ × t²${cubic}) = ${quantityText(x, 'Ohm')}. IEC 60751 allows an element of class A ±${quantityText(platinumToleranceDegC('A', y), 'Cel')} there, of class B ±${quantityText(platinumToleranceDegC('B', y), 'Cel')}.`
  },
}

const ratio = (t: number, c: number): number => 1 + t * (A + t * (B + t * (c * (t - 100))))

const ratioSlope = (t: number, c: number): number => A + t * (2 * B + t * (c * (4 * t - 300)))

const newtonSql = `step_t - (${sqlNumber(1)} + step_t * (${sqlNumber(A)} + step_t * (${sqlNumber(B)} + step_t * (${sqlNumber(C)} * (step_t - ${sqlNumber(100)})))) - step_r) / (${sqlNumber(A)} + step_t * (${sqlNumber(2 * B)} + step_t * (${sqlNumber(C)} * (${sqlNumber(4)} * step_t - ${sqlNumber(300)}))))`

function temperature(r: number): number | null {
  if (!(r >= lowestRatio && r <= highestRatio)) return null
  let t = platinumQuadratic(r)
  if (r >= 1) return t
  for (let pass = 0; pass < newtonSteps; pass++) t = t - (ratio(t, C) - r) / ratioSlope(t, C)
  return t
}

/** °C of a resistance over that at 0 °C by the quadratic that holds above 0 °C only; −100 °C comes out 0.2 °C too cold. */
export const platinumQuadratic = (ratio: number): number =>
  (-A + Math.sqrt(A * A - 4 * B * (1 - ratio))) / (2 * B)
