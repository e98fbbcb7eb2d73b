import { positionAtDepth } from '../../geometry/hole.ts'
import { surveyedHole } from '../../geometry/surveyed-hole.ts'
import { stressFromStrata } from '../../ground/stress-from-strata.ts'
import { accept, type Outcome, reject } from '../../outcome.ts'
import type { Instrument } from '../../site/tables.ts'
import { unitWeightOfWaterKnPerM3 } from '../hydrostatics.ts'
import { numberText } from '../number-text.ts'
import type { DerivedBundle, DerivedSlot } from '../rules/derived-bundle.ts'
import { combinationBundles, type MadeSeries } from './made-series.ts'
import { instrumentIssue, type PlanSite, pointsOf, sensorsOf, unitFaults } from './plan-site.ts'
import { measuredSlots } from './slots.ts'

interface Tip {
  readonly point: string
  readonly slot: number
  readonly levelMetres: number
}

/**
 * What the tips of one hole make of their pore pressures, kPa: the vertical hydraulic gradient between neighbours
 * (upward positive); and, where the instrument states that total stress comes from the strata of its hole, effective
 * vertical stress and pore-pressure ratio at each tip.
 */
export function planPiezometerString(
  instrument: Instrument,
  site: PlanSite,
): Outcome<readonly DerivedBundle[]> {
  const points = pointsOf(instrument, site)
  const sensors = sensorsOf(points, site, 'pore-pressure')
  const location = site.locations.find(({ id }) => id === instrument.location)
  if (sensors.length === 0 || location === undefined) return accept([])
  const stressed = (instrument.totalStressFrom ?? null) !== null
  const slots = measuredSlots(points, sensors)
  if (slots.length < 2 && !stressed) return accept([])
  const faults = unitFaults(instrument, sensors, 'kPa')
  if (faults.length > 0) return reject(...faults)
  const hole = surveyedHole(location, site.holeSurveys ?? [])
  const tips = slots
    .map(({ point, depthMetres }: DerivedSlot, slot): Tip => {
      return { point, slot, levelMetres: positionAtDepth(hole, depthMetres).levelMetres }
    })
    .toSorted((one, other) => other.levelMetres - one.levelMetres)
  const made = gradients(tips, site.waterUnitWeightKnPerM3 ?? unitWeightOfWaterKnPerM3)
  if (stressed)
    for (const tip of tips) {
      const total = totalStress(instrument, site, location.collarLevelMetres, tip)
      if (!total.ok) return total
      made.push(...stresses(tip, total.value))
    }
  return accept(combinationBundles(instrument, slots, made, sensors))
}

function gradients(tips: readonly Tip[], waterUnitWeight: number): MadeSeries[] {
  return tips.slice(1).flatMap((lower, index): MadeSeries[] => {
    const upper = tips[index] as Tip
    const apartMetres = upper.levelMetres - lower.levelMetres
    if (!(apartMetres > 0)) return []
    const weight = 1 / (waterUnitWeight * apartMetres)
    return [
      {
        output: {
          id: `${lower.point}/hydraulic-gradient`,
          point: lower.point,
          measure: 'hydraulic-gradient',
          unit: 'm/m',
          decimals: 3,
          positiveMeans: `water is driven upwards, from ${lower.point} to ${upper.point}`,
        },
        combination: {
          // (z lower − z upper) / Δz: the elevation heads.
          constant: -1,
          terms: [
            { slot: lower.slot, weight },
            { slot: upper.slot, weight: -weight },
          ],
          says: `Rise of piezometric level from ${upper.point} down to ${lower.point}, ${Number(apartMetres.toFixed(3))} m apart, water of ${numberText(waterUnitWeight)} kN/m³`,
          formula: 'i = (u lower − u upper) / (γw · Δz) − 1',
        },
      },
    ]
  })
}

function stresses({ point, slot }: Tip, totalKpa: number): readonly MadeSeries[] {
  const text = Number(totalKpa.toFixed(2))
  return [
    {
      output: {
        id: `${point}/effective-stress`,
        point,
        measure: 'effective-stress',
        unit: 'kPa',
        decimals: 1,
        positiveMeans: `compression; total ${text} kPa from the strata of the hole, ground at its collar`,
      },
      combination: {
        constant: totalKpa,
        terms: [{ slot, weight: -1 }],
        says: `Effective vertical stress at ${point}, total from the strata of the hole`,
        formula: 'σ′ = σ − u',
      },
    },
    {
      output: {
        id: `${point}/pore-pressure-ratio`,
        point,
        measure: 'pore-pressure-ratio',
        unit: 'kPa/kPa',
        decimals: 3,
        positiveMeans: `share of the total vertical stress, ${text} kPa from the strata of the hole`,
      },
      combination: {
        constant: 0,
        terms: [{ slot, weight: 1 / totalKpa }],
        says: `Pore pressure at ${point} over the total vertical stress of ${text} kPa`,
        formula: 'r_u = u / σ',
      },
    },
  ]
}

/** From the layers of the instrument's hole, which must follow one another without a gap from the collar to the tip. */
function totalStress(
  instrument: Instrument,
  site: PlanSite,
  collarLevelMetres: number,
  { point, levelMetres }: Tip,
): Outcome<number> {
  const layers = site.strata.filter(({ location }) => location === instrument.location)
  const stress = stressFromStrata(layers, collarLevelMetres, levelMetres)
  if (stress !== null) return accept(stress)
  return reject(
    instrumentIssue(
      instrument,
      'totalStressFrom',
      'strata-not-known',
      'strata without a gap from the collar to every tip',
      `The strata of ${instrument.location} do not reach from its collar to ${point} of ${instrument.id} without a gap, so nothing is known of the stress there. Complete them, or leave totalStressFrom empty.`,
    ),
  )
}
