import { piezometricLevelMetres, pressureHeadMetres } from './hydrostatics.ts'
import { numberText, operandText, quantityText } from './number-text.ts'
import { type TrailReading, type TrailSource, trailSources } from './trail-source.ts'
import type { TrailStep } from './trail-step.ts'

/** Where a value comes from: raw readings, calibrations, companions, arithmetic and doubts. */
export interface Trail {
  readonly series: string
  readonly atEpochMs: number
  readonly value: number | null
  readonly unit: string
  readonly standardUncertainty: number | null
  /** How well a change of the series is known under the calibration in force then; left out where it is not. */
  readonly changeSentence?: string | undefined
  /** The reading itself first, then companions and members, each with its own chain. */
  readonly sources: readonly TrailSource[]
  /** What was made of them. */
  readonly derived: readonly TrailStep[]
  readonly cautions: readonly string[]
}

/** Where a pore pressure is measured, and the water that it is told in. */
export interface TrailTip {
  readonly levelMetres: number
  /** Unit weight in kN/m³ and where it comes from (`siteWater`). */
  readonly water: { readonly unitWeightKnPerM3: number; readonly sentence: string }
}

/**
 * Trail of a sensor's own value. With the level of the tip (m, up positive) a pore pressure is carried on to
 * pressure head and piezometric level.
 */
export function readingTrail(reading: TrailReading, tip: TrailTip | null = null): Trail {
  const { sources, cautions } = trailSources(reading, 'reading')
  const [own] = sources
  const value = own?.value ?? null
  const standardUncertainty = own?.standardUncertainty ?? null
  return {
    series: reading.series,
    atEpochMs: reading.atEpochMs,
    value,
    unit: reading.unit,
    standardUncertainty,
    sources,
    derived: tip === null || value === null ? [] : levelLines(value, standardUncertainty, tip),
    cautions,
  }
}

function levelLines(
  porePressureKpa: number,
  standardUncertainty: number | null,
  { levelMetres: tipLevelMetres, water }: TrailTip,
): readonly TrailStep[] {
  const unitWeight = water.unitWeightKnPerM3
  const head = pressureHeadMetres(porePressureKpa, unitWeight)
  const level = piezometricLevelMetres(tipLevelMetres, porePressureKpa, unitWeight)
  const uncertainty = standardUncertainty === null ? null : standardUncertainty / unitWeight
  return [
    {
      kind: 'pressure-head',
      formula: 'h = u / γw',
      sentence: `${water.sentence} Pressure head: ${numberText(porePressureKpa)} / ${numberText(unitWeight)} = ${quantityText(head, 'm')}.`,
      input: porePressureKpa,
      inputUnit: 'kPa',
      output: head,
      outputUnit: 'm',
      standardUncertainty: uncertainty,
    },
    {
      kind: 'piezometric-level',
      formula: 'H = z + u / γw',
      sentence: `Piezometric level, tip at ${quantityText(tipLevelMetres, 'm')}: ${numberText(tipLevelMetres)} + ${operandText(head)} = ${quantityText(level, 'm')}.`,
      input: head,
      inputUnit: 'm',
      output: level,
      outputUnit: 'm',
      standardUncertainty: uncertainty,
    },
  ]
}
