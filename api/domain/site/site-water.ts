import { unitWeightOfWaterKnPerM3 } from '../reduction/hydrostatics.ts'
import { numberText, quantityText } from '../reduction/number-text.ts'
import {
  freshWaterDensity,
  normalGravity,
  seaWaterDensity,
  standardGravity,
  unitWeightKnPerM3,
} from '../reduction/water-density.ts'
import type { SiteFacts } from './site.ts'

/** Unit weight of water that holds for the whole of a site, wherever pressure becomes head or level. */
export interface SiteWater {
  readonly unitWeightKnPerM3: number
  /** Where it comes from, for people. */
  readonly sentence: string
}

type WaterFacts = Pick<
  SiteFacts,
  'waterUnitWeightKnPerM3' | 'waterTemperatureDegC' | 'waterSalinity' | 'latitudeDegrees'
>

/**
 * The unit weight that the site states; else the one computed from its water's temperature and salinity, with gravity
 * at its latitude; else the customary 9.81 kN/m³.
 */
export function siteWater(facts: WaterFacts): SiteWater {
  const { waterUnitWeightKnPerM3: stated, waterTemperatureDegC: temperature } = facts
  if (stated != null)
    return {
      unitWeightKnPerM3: stated,
      sentence: `Unit weight of water as the site states it: ${quantityText(stated, 'kN/m3')}.`,
    }
  if (temperature == null)
    return {
      unitWeightKnPerM3: unitWeightOfWaterKnPerM3,
      sentence: `Unit weight of water: the customary ${quantityText(unitWeightOfWaterKnPerM3, 'kN/m3')}; the site states no other.`,
    }
  const salinity = facts.waterSalinity ?? 0
  const latitude = facts.latitudeDegrees ?? null
  const density = salinity > 0 ? seaWaterDensity(salinity, temperature) : freshWaterDensity(temperature)
  const gravity = latitude === null ? standardGravity : normalGravity(latitude)
  const unitWeight = unitWeightKnPerM3(density, gravity)
  const water = salinity > 0 ? `salinity ${numberText(salinity)}` : 'no salt'
  const where =
    latitude === null ? 'standard gravity' : `gravity at latitude ${quantityText(latitude, 'deg')}`
  return {
    unitWeightKnPerM3: unitWeight,
    sentence: `Unit weight of water of ${quantityText(temperature, 'Cel')} and ${water}, ${where}: ${numberText(density)} × ${numberText(
      gravity,
    )} / 1000 = ${quantityText(unitWeight, 'kN/m3')}.`,
  }
}

interface WaterFault {
  readonly field: keyof WaterFacts
  readonly code: string
  readonly expected: string
  readonly message: string
}

/** What does not fit together in what a site says of its water. */
export function waterFaults(facts: WaterFacts): readonly WaterFault[] {
  const { waterUnitWeightKnPerM3, waterTemperatureDegC, waterSalinity, latitudeDegrees } = facts
  const faults: WaterFault[] = []
  if (waterUnitWeightKnPerM3 != null && waterTemperatureDegC != null)
    faults.push({
      field: 'waterUnitWeightKnPerM3',
      code: 'water-stated-twice',
      expected: 'a unit weight, or a temperature to compute it from',
      message:
        'The site states the unit weight of its water and also a temperature to compute it from. Keep one of the two.',
    })
  if (waterTemperatureDegC == null)
    for (const [field, value] of [
      ['waterSalinity', waterSalinity],
      ['latitudeDegrees', latitudeDegrees],
    ] as const)
      if (value != null)
        faults.push({
          field,
          code: 'water-temperature-missing',
          expected: 'waterTemperatureDegC beside it',
          message: `${field} is used only to compute the unit weight of water from its temperature, which is not given. Add waterTemperatureDegC, or take ${field} away.`,
        })
  const [lowest, highest] = (waterSalinity ?? 0) > 0 ? [-2, 40] : [0, 100]
  if (waterTemperatureDegC != null && !(waterTemperatureDegC >= lowest && waterTemperatureDegC <= highest))
    faults.push({
      field: 'waterTemperatureDegC',
      code: 'water-temperature-unknown',
      expected: `${lowest} to ${highest} °C`,
      message: `The density of this water is known from ${lowest} to ${highest} °C. Correct the temperature, or state the unit weight.`,
    })
  return faults
}
