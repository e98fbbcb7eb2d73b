import type { CalibrationStep, Companions } from './chain.ts'
import { givenOrDefault } from './parameter.ts'
import { steps as stepsByKind } from './steps.ts'

/** Greatest age of the companions that a chain needs; null where it needs none of that kind. */
export interface CompanionAges {
  readonly temperatureMinutes: number | null
  readonly barometerMinutes: number | null
}

/** The companion is the nearest reading at or before the instant; older than this it counts as missing. */
export function companionAges(steps: readonly CalibrationStep[]): CompanionAges {
  return {
    temperatureMinutes: strictest(steps, 'temperatureDegC'),
    barometerMinutes: strictest(steps, 'barometerKpa'),
  }
}

function strictest(steps: readonly CalibrationStep[], companion: keyof Companions): number | null {
  const ages = steps
    .filter(({ kind }) => stepsByKind[kind].needs === companion)
    .map(({ kind, parameters }) => givenOrDefault(kind, parameters, 'maximumAgeMinutes'))
  return ages.length > 0 ? Math.min(...ages) : null
}
