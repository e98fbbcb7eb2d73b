import { accept, type Outcome, reject } from '../outcome.ts'
import type { StratumLayer } from '../site/tables.ts'
import { type Analysis, given, type LeftOut } from './analysis.ts'
import { heaveBalance, shareOfResistance } from './heave.ts'

/** A piezometer tip below an excavation, with its pressure now. */
export interface TipBelow {
  readonly id: string
  readonly levelMetres: number
  /** Null: no value known. */
  readonly porePressureKpa: number | null
  readonly late: boolean
}

export interface Uplift extends Analysis<TipBelow> {
  /** Pore pressure over the total stress of the ground above the tip: above 1 the water lifts it. */
  readonly shareOfStress: number
  readonly totalStressKpa: number
  /** The same share at other levels of formation with the pressure as it is now, from the ground down. */
  readonly atFormation: readonly { readonly levelMetres: number; readonly share: number }[]
}

/**
 * Pore pressure at a tip against the weight of the ground between it and a formation level, in both forms of EN 1997-1
 * (2.9a total stress, 2.9b seepage force), without partial factors, shear at the sides or the strength of the plug.
 * Refused without a current pressure, with a tip at or above formation, and where a layer between is not recorded.
 */
export function upliftBelow(
  tip: TipBelow,
  strata: readonly StratumLayer[],
  formationLevelMetres: number,
  unitWeightOfWater: number,
): Outcome<Uplift> {
  const { id, levelMetres, porePressureKpa, late } = tip
  if (porePressureKpa === null || late)
    return reject({
      code: 'pressure-not-current',
      value: id,
      message: `${id} has ${late ? 'no current' : 'no'} pore pressure, so nothing is said of uplift there. Read it.`,
    })
  if (!(formationLevelMetres > levelMetres))
    return reject({
      code: 'tip-above-formation',
      value: String(formationLevelMetres),
      expected: `above ${levelMetres} m`,
      message: `${id} at ${levelMetres} m does not lie below a formation at ${formationLevelMetres} m. Choose a deeper tip.`,
    })
  const stress = stressBetween(strata, formationLevelMetres, levelMetres)
  if (stress === null)
    return reject({
      code: 'layers-missing',
      value: id,
      expected: 'layers without gaps in strata.csv',
      message: `The layers of the hole between ${formationLevelMetres} m and ${id} at ${levelMetres} m are not all recorded. Complete strata.csv.`,
    })
  const thicknessMetres = formationLevelMetres - levelMetres
  const balance = heaveBalance({
    thicknessMetres,
    unitWeightKnPerM3: stress / thicknessMetres,
    unitWeightOfWater,
    porePressureAtBaseKpa: porePressureKpa,
  })
  const share = shareOfResistance(porePressureKpa, balance.totalStressKpa)
  const top = Math.max(...strata.map(({ topLevelMetres }) => topLevelMetres))
  const atFormation = Array.from({ length: 41 }, (_, step) => {
    const level = top - (step / 41) * (top - levelMetres)
    const above = stressBetween(strata, level, levelMetres)
    return above === null ? [] : [{ levelMetres: level, share: porePressureKpa / above }]
  }).flat()
  return accept({
    method:
      'Pore pressure at the tip against the weight of the ground above it (EN 1997-1, 2.9a and 2.9b), all actions and resistances as they are: no partial factor is in it.',
    parameters: [
      given('formation level', formationLevelMetres, 'm'),
      given('level of the tip', levelMetres, 'm'),
      given('unit weight of water', unitWeightOfWater, 'kN/m³'),
    ],
    found: [
      given('pore pressure at the tip', porePressureKpa, 'kPa'),
      given('total stress of the ground above it', balance.totalStressKpa, 'kPa'),
      given('share of the stress that the pressure takes (2.9a)', share, ''),
      ...(balance.seepageForceKn > 0
        ? [
            given(
              'seepage force over submerged weight (2.9b)',
              shareOfResistance(balance.seepageForceKn, balance.submergedWeightKn),
              '',
            ),
            given('mean upward gradient', balance.gradient, ''),
          ]
        : []),
    ],
    used: [tip],
    leftOut: [] as readonly LeftOut<TipBelow>[],
    remarks: [
      share >= 1
        ? `The pressure at ${id} is not below the weight of the ground above it: by this balance the base is lifted.`
        : `By this balance the pressure at ${id} takes ${Math.round(100 * share)} % of the weight above it. Codes ask for partial factors on both; the responsible engineer applies them.`,
      'Shear along walls and the strength of the plug help and are not in it; a layer that drains freely between formation and tip, or unit weights too high, make it look better than it is.',
    ],
    shareOfStress: share,
    totalStressKpa: balance.totalStressKpa,
    atFormation,
  })
}

/** Weight of the layers between two levels, kPa; null where they leave a gap. */
function stressBetween(strata: readonly StratumLayer[], top: number, base: number): number | null {
  let [stress, covered] = [0, 0]
  for (const { topLevelMetres, baseLevelMetres, unitWeightKnPerM3 } of strata) {
    const thick = Math.min(top, topLevelMetres) - Math.max(base, baseLevelMetres)
    if (!(thick > 0)) continue
    stress += thick * unitWeightKnPerM3
    covered += thick
  }
  return Math.abs(covered - (top - base)) < 0.01 ? stress : null
}
