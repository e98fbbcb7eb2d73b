import type { CalibrationStep } from './chain.ts'
import { numberOf } from './parameter.ts'
import { stepParameters } from './step-parameters.ts'

/** Greatest age of the companions that a chain needs; null where it needs none of that kind. */
export interface CompanionAges {
  readonly temperatureMinutes: number | null
  readonly barometerMinutes: number | null
}

/** The companion is the nearest reading at or before the instant; older than this it counts as missing. */
export function companionAges(steps: readonly CalibrationStep[]): CompanionAges {
  return {
    temperatureMinutes: strictest(steps, 'thermal'),
    barometerMinutes: strictest(steps, 'barometric'),
  }
}

function strictest(steps: readonly CalibrationStep[], kind: 'thermal' | 'barometric'): number | null {
  const byDefault = stepParameters[kind].optional?.maximumAgeMinutes
  const ages = steps
    .filter((step) => step.kind === kind)
    .map(({ parameters }) =>
      numberOf({ maximumAgeMinutes: byDefault ?? Number.NaN, ...parameters }, 'maximumAgeMinutes'),
    )
  return ages.length > 0 ? Math.min(...ages) : null
}
