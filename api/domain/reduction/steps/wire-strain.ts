import { numberText, operandText, quantityText } from '../number-text.ts'
import { givenOrDefault, numberOf } from '../parameter.ts'
import { sqlNumber } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'
import { clampedWireFrequencyHz, stringFrequencyHz } from '../wire-mechanics.ts'

/**
 * Strain of a vibrating wire in µm/m, tension positive, from f²/1000 by the mechanics of a string,
 * ε = 4 L² ρ f² / E, with the gauge length in m, the wire's density in kg/m³ and modulus in GPa. Changes are to be
 * trusted, not the strain itself, so a `zero` follows. A short thick wire rings higher than a string
 * (`wire-mechanics.ts`); where there is a calibrated factor, a linear step takes it instead.
 */
export const wireStrain: Step = {
  kind: 'wire-strain',
  formula: stepParameters['wire-strain'].formula,
  needs: null,
  unitIn: () => '10*3.Hz2',
  unitOut: () => 'um/m',
  apply: (x, parameters) => {
    const { length, density, modulus } = wire(parameters)
    return (4 * length * length * density * x) / modulus
  },
  sql: (x, parameter) =>
    `(${sqlNumber(4)} * ${parameter('lengthMetres')} * ${parameter('lengthMetres')} * ${parameter('densityKgPerM3')} * ${x} / ${parameter('modulusGpa')})`,
  derivative: (_x, parameters) => {
    const { length, density, modulus } = wire(parameters)
    return (4 * length * length * density) / modulus
  },
  invert: (y, parameters) => {
    const { length, density, modulus } = wire(parameters)
    return (y * modulus) / (4 * length * length * density)
  },
  sentence: (x, y, parameters) => {
    const { length, density, modulus } = wire(parameters)
    return y === null
      ? `The wire has no strain at ${quantityText(x, '10*3.Hz2')}.`
      : `Strain of the wire from its length in m, density in kg/m³ and modulus in GPa: 4 × ${numberText(length)}² × ${numberText(
          density,
        )} × ${operandText(x)} / ${numberText(modulus)} = ${quantityText(y, 'um/m')}.${stiffnessRemark(y, parameters)}`
  },
}

const wire = (parameters: Parameters<Step['apply']>[1]) => ({
  length: numberOf(parameters, 'lengthMetres'),
  density: numberOf(parameters, 'densityKgPerM3'),
  modulus: numberOf(parameters, 'modulusGpa'),
})

/** How much higher a round wire of the stated diameter rings than the string that the formula takes it for. */
function stiffnessRemark(strain: number, parameters: Parameters<Step['apply']>[1]): string {
  const diameterMillimetres = givenOrDefault('wire-strain', parameters, 'diameterMillimetres')
  if (!(diameterMillimetres > 0 && strain > 0)) return ''
  const { length, density, modulus } = wire(parameters)
  const stretched = {
    lengthMetres: length,
    densityKgPerM3: density,
    diameterMetres: diameterMillimetres / 1000,
    modulusPa: modulus * 1e9,
    stressPa: modulus * 1e9 * strain * 1e-6,
  }
  const higher = 100 * (clampedWireFrequencyHz(stretched) / stringFrequencyHz(stretched) - 1)
  return ` Clamped at its ends, a wire of ${quantityText(diameterMillimetres, 'mm')} rings ${higher.toFixed(1)} % higher than the string of this formula; only changes of the strain are to be trusted.`
}
