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
import type { TrailStep } from '../trail-step.ts'
import { standardGravity, unitWeightKnPerM3 } from '../water-density.ts'
import type { DerivedBundle, DerivedOutput, MemberValue, Term } from './derived-bundle.ts'
import { bitsOf, type Rule, type TrailSlot, weightedUncertainty } from './rule.ts'
import {
  bitsSql,
  type DerivedRelations,
  outputsSelectSql,
  slotColumnsSql,
  slotNumbers,
  withHeldSql,
} from './slotted-sql.ts'

interface LiquidColumn {
  readonly kind: 'liquid-column'
  readonly zeroPressureKpa: number
  readonly zeroTemperatureDegC: number
  readonly liquid: ColumnLiquid
}

/** Outputs: `whole` against the reservoir; 0 with that of the reservoir, the last slot, by its surveys. */
export const withReservoir = 0

/**
 * Settlement of a cell, mm, downwards: slots are the pressure of the liquid (kPa), its temperature (°C), where it is
 * measured how far the liquid in the reservoir has dropped (mm), and where it is surveyed, held, the settlement of the
 * reservoir (mm). What an output needs is required: else null and incomplete; a temperature for which the density is not
 * known gives null and is marked so.
 */
export const liquidColumn: Rule<LiquidColumn> = {
  derive({ slots, outputs }: DerivedBundle, rule, read: readonly MemberValue[]) {
    const own = read.slice(0, ownSlots(slots))
    const known = own.every(({ value }) => value !== null)
    const settlement = known
      ? settlementOf(
          rule,
          own.map(({ value }) => value ?? 0),
        )
      : null
    const computable = settlement !== null && Number.isFinite(settlement)
    const fault = known && !computable ? quality.notComputable : 0
    const surveyed = read[own.length]?.value ?? null
    return outputs.map(({ of }) =>
      of === withReservoir
        ? {
            value: computable && surveyed !== null ? settlement + surveyed : null,
            quality: bitsOf(read) | fault,
          }
        : { value: computable ? settlement : null, quality: bitsOf(own) | fault },
    )
  },

  shape: ({ slots }, { zeroPressureKpa, zeroTemperatureDegC, liquid }) =>
    `liquid-column ${slots.length} ${ownSlots(slots)} ${zeroPressureKpa} ${zeroTemperatureDegC} ${JSON.stringify(liquid)}`,

  sql({ slots: members, outputs }: DerivedBundle, rule, relations: DerivedRelations) {
    const slots = slotNumbers(ownSlots(members))
    const weight = `(${liquidDensitySql(rule.liquid, 'v1')} * ${sqlNumber(standardGravity)} / 1000)`
    const drop = slots.length > 2 ? 'v2' : '0e0'
    const value = `(1000 * (v0 / ${weight}) - ${sqlNumber(zeroColumnMm(rule))} + ${drop})`
    const known = slots.map((slot) => `v${slot} is not null`).join(' and ')
    const bits = `(${bitsSql(slots)} | case when ${known} and ${value} is null then ${quality.notComputable} else 0 end)`
    const made = outputs.map(({ of }) =>
      of === withReservoir
        ? { output: of, value: `(${value} + held_value)`, bits: `(${bits} | held_quality)` }
        : { output: -1, value, bits },
    )
    const columns = slotColumnsSql(slots, relations)
    return slots.length < members.length
      ? `${columns}${withHeldSql('marked', relations)}${outputsSelectSql(made, 'surveyed', relations)}`
      : `${columns}${outputsSelectSql(made, 'marked', relations)}`
  },

  lines(bundle, rule, output: DerivedOutput, slots: readonly TrailSlot[]) {
    const own = ownSlots(bundle.slots)
    const values = slots.map(({ source }) => source?.value ?? null)
    const needed = output.of === withReservoir ? values : values.slice(0, own)
    if (needed.some((value) => value === null)) return []
    const [pressure = 0, temperature = 0, drop = 0] = values.slice(0, own).map((value) => value ?? 0)
    const density = liquidDensity(rule.liquid, temperature)
    const settlement = settlementOf(rule, [pressure, temperature, drop])
    if (!Number.isFinite(settlement)) return []
    const column = (1000 / unitWeightKnPerM3(density)) * pressure
    const near = { pressureKpa: pressure, temperatureDegC: temperature }
    const uncertaintyOf = (of: DerivedOutput['of']) =>
      weightedUncertainty(
        liquidColumnTerms(rule, bundle.slots, { of }, near).map(({ slot, weight }) => ({
          weight,
          standardUncertainty: slots[slot]?.source?.standardUncertainty ?? null,
        })),
      )
    const common = { kind: 'liquid-column', inputUnit: 'mm', outputUnit: 'mm' }
    const relative = [
      columnLine(rule, [pressure, temperature], density, column),
      {
        ...common,
        ...settlementWords(rule, column, own > 2 ? drop : null, settlement),
        input: column,
        output: settlement,
        standardUncertainty: uncertaintyOf('whole'),
      },
    ]
    const surveyed = values[own] ?? null
    if (output.of !== withReservoir || surveyed === null) return relative
    return [
      ...relative,
      {
        ...common,
        formula: 's = s against the reservoir + s reservoir',
        sentence: `And what the reservoir has settled, surveyed at ${slots[own]?.point}: ${numberText(settlement)} + ${operandText(surveyed)} = ${quantityText(settlement + surveyed, output.unit)}.`,
        input: settlement,
        output: settlement + surveyed,
        standardUncertainty: uncertaintyOf(withReservoir),
      },
    ]
  },
}

/** Weights of the slots in an output near a reading, by default the one at zero: its derivatives there. */
export function liquidColumnTerms(
  { liquid, zeroPressureKpa, zeroTemperatureDegC }: LiquidColumn,
  slots: DerivedBundle['slots'],
  { of }: Pick<DerivedOutput, 'of'>,
  { pressureKpa = zeroPressureKpa, temperatureDegC = zeroTemperatureDegC } = {},
): readonly Term[] {
  const own = ownSlots(slots)
  const density = liquidDensity(liquid, temperatureDegC)
  const perKpa = 1000 / unitWeightKnPerM3(density)
  const perKelvin = ((-perKpa * pressureKpa) / density) * liquidDensityPerKelvin(liquid, temperatureDegC)
  const terms = [perKpa, perKelvin, 1].slice(0, own).map((weight, slot) => ({ slot, weight }))
  return of === withReservoir ? [...terms, { slot: own, weight: 1 }] : terms
}

/** All but the surveys of the reservoir, which are held and stand last. */
const ownSlots = (slots: DerivedBundle['slots']): number =>
  slots.filter(({ maximumAgeMinutes }) => maximumAgeMinutes === null).length

function columnLine(
  { liquid }: LiquidColumn,
  [pressure, temperature]: readonly [number, number],
  density: number,
  columnMm: number,
): TrailStep {
  const fluid = liquid.kind === 'water' ? 'water' : 'a liquid'
  return {
    kind: 'liquid-column',
    formula: 'h = p / (ρ · g)',
    sentence: `Height of the column, of ${fluid} of ${numberText(density)} kg/m³ at ${quantityText(temperature, 'degC')}: 1000000 × ${operandText(pressure)} / (${numberText(density)} × ${numberText(standardGravity)}) = ${quantityText(columnMm, 'mm')}.`,
    input: pressure,
    inputUnit: 'kPa',
    output: columnMm,
    outputUnit: 'mm',
    standardUncertainty: null,
  }
}

function settlementWords(
  rule: LiquidColumn,
  columnMm: number,
  dropMm: number | null,
  settlementMm: number,
): { readonly formula: string; readonly sentence: string } {
  const before = zeroColumnMm(rule)
  const [says, added] =
    dropMm === null
      ? ['', '']
      : ['; a drop of the liquid in the reservoir is added', ` + ${operandText(dropMm)}`]
  return {
    formula: dropMm === null ? 's = h − h₀' : 's = h − h₀ + drop',
    sentence: `At zero it stood ${quantityText(before, 'mm')} high, by ${quantityText(rule.zeroPressureKpa, 'kPa')} at ${quantityText(rule.zeroTemperatureDegC, 'degC')}${says}: ${numberText(columnMm)} − ${operandText(before)}${added} = ${quantityText(settlementMm, 'mm')}.`,
  }
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
