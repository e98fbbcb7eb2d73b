import {
  type ColumnLiquid,
  liquidDensity,
  liquidDensityPerKelvin,
  liquidDensitySql,
} from '../liquid-density.ts'
import { numberText, operandText, quantityText } from '../number-text.ts'
import { quality } from '../quality.ts'
import { cellRiseMm } from '../settlement-cell.ts'
import { sqlNumber } from '../sql-number.ts'
import { standardGravity, unitWeightKnPerM3 } from '../water-density.ts'
import type { DerivedBundle, DerivedOutput, MemberValue, Term } from './derived-bundle.ts'
import { bitsOf, type Rule, type TrailSlot, weightedUncertainty } from './rule.ts'
import { bitsSql, type DerivedRelations, outputsSql, slotNumbers } from './slotted-sql.ts'

interface LiquidColumn {
  readonly kind: 'liquid-column'
  readonly zeroPressureKpa: number
  readonly zeroTemperatureDegC: number
  readonly liquid: ColumnLiquid
}

/**
 * Settlement of a cell against its reservoir, mm, downwards: slots are the pressure of the liquid (kPa), its temperature
 * (°C) and, where it is measured, how far the liquid in the reservoir has dropped (mm). All of them are required: else
 * null and incomplete; a temperature for which the density is not known gives null and is marked so.
 */
export const liquidColumn: Rule<LiquidColumn> = {
  derive({ outputs }: DerivedBundle, rule, read: readonly MemberValue[]) {
    const known = read.every(({ value }) => value !== null)
    const settlement = known
      ? settlementOf(
          rule,
          read.map(({ value }) => value ?? 0),
        )
      : null
    const computable = settlement !== null && Number.isFinite(settlement)
    const bits = bitsOf(read) | (known && !computable ? quality.notComputable : 0)
    return outputs.map(() => ({ value: computable ? settlement : null, quality: bits }))
  },

  shape: ({ slots }, { zeroPressureKpa, zeroTemperatureDegC, liquid }) =>
    `liquid-column ${slots.length} ${zeroPressureKpa} ${zeroTemperatureDegC} ${JSON.stringify(liquid)}`,

  sql({ slots: members }: DerivedBundle, rule, relations: DerivedRelations) {
    const slots = slotNumbers(members.length)
    const weight = `(${liquidDensitySql(rule.liquid, 'v1')} * ${sqlNumber(standardGravity)} / 1000)`
    const drop = slots.length > 2 ? 'v2' : '0e0'
    const value = `(1000 * (v0 / ${weight}) - ${sqlNumber(zeroColumnMm(rule))} + ${drop})`
    const known = slots.map((slot) => `v${slot} is not null`).join(' and ')
    const bits = `(${bitsSql(slots)} | case when ${known} and ${value} is null then ${quality.notComputable} else 0 end)`
    return outputsSql(slots, [{ output: -1, value, bits }], relations)
  },

  lines(_bundle, rule, output: DerivedOutput, slots: readonly TrailSlot[]) {
    const values = slots.map(({ source }) => source?.value ?? null)
    if (values.some((value) => value === null)) return []
    const [pressure = 0, temperature = 0, drop = 0] = values.map((value) => value ?? 0)
    const density = liquidDensity(rule.liquid, temperature)
    const settlement = settlementOf(rule, [pressure, temperature, drop])
    if (!Number.isFinite(settlement)) return []
    const perKpa = 1000 / unitWeightKnPerM3(density)
    const column = perKpa * pressure
    const before = zeroColumnMm(rule)
    const fluid = rule.liquid.kind === 'water' ? 'water' : 'a liquid'
    return [
      {
        kind: 'liquid-column',
        formula: 'h = p / (ρ · g)',
        sentence: `Height of the column, of ${fluid} of ${numberText(density)} kg/m³ at ${quantityText(temperature, 'degC')}: 1000000 × ${operandText(pressure)} / (${numberText(density)} × ${numberText(standardGravity)}) = ${quantityText(column, 'mm')}.`,
        input: pressure,
        inputUnit: 'kPa',
        output: column,
        outputUnit: 'mm',
        standardUncertainty: null,
      },
      {
        kind: 'liquid-column',
        formula: slots.length > 2 ? 's = h − h₀ + drop' : 's = h − h₀',
        sentence: `At zero it stood ${quantityText(before, 'mm')} high, by ${quantityText(rule.zeroPressureKpa, 'kPa')} at ${quantityText(rule.zeroTemperatureDegC, 'degC')}${slots.length > 2 ? '; a drop of the liquid in the reservoir is added' : ''}: ${numberText(column)} − ${operandText(before)}${slots.length > 2 ? ` + ${operandText(drop)}` : ''} = ${quantityText(settlement, output.unit)}.`,
        input: column,
        inputUnit: 'mm',
        output: settlement,
        outputUnit: output.unit,
        standardUncertainty: weightedUncertainty(
          liquidColumnTerms(rule, slots.length, { pressureKpa: pressure, temperatureDegC: temperature }).map(
            ({ slot, weight }) => ({
              weight,
              standardUncertainty: slots[slot]?.source?.standardUncertainty ?? null,
            }),
          ),
        ),
      },
    ]
  },
}

/** Weights of the slots in the settlement near a reading, by default the one at zero: its derivatives there. */
export function liquidColumnTerms(
  { liquid, zeroPressureKpa, zeroTemperatureDegC }: LiquidColumn,
  slots: number,
  { pressureKpa = zeroPressureKpa, temperatureDegC = zeroTemperatureDegC } = {},
): readonly Term[] {
  const density = liquidDensity(liquid, temperatureDegC)
  const perKpa = 1000 / unitWeightKnPerM3(density)
  const perKelvin = ((-perKpa * pressureKpa) / density) * liquidDensityPerKelvin(liquid, temperatureDegC)
  return [perKpa, perKelvin, 1].slice(0, slots).map((weight, slot) => ({ slot, weight }))
}

function settlementOf(
  rule: LiquidColumn,
  [pressureKpa = 0, temperature = 0, drop = 0]: readonly number[],
): number {
  const zero = {
    pressureKpa: rule.zeroPressureKpa,
    densityKgPerM3: liquidDensity(rule.liquid, rule.zeroTemperatureDegC),
    reservoirDropMm: 0,
  }
  const now = {
    pressureKpa,
    densityKgPerM3: liquidDensity(rule.liquid, temperature),
    reservoirDropMm: drop,
  }
  return -cellRiseMm(zero, now)
}

const zeroColumnMm = ({ zeroPressureKpa, zeroTemperatureDegC, liquid }: LiquidColumn): number =>
  1000 * (zeroPressureKpa / unitWeightKnPerM3(liquidDensity(liquid, zeroTemperatureDegC)))
