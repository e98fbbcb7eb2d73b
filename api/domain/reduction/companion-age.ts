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

/** The nearest reading at or before an instant and no older than a number of minutes; null when there is none. */
export function pickCompanion<T extends { readonly atEpochMs: number }>(
  readings: Iterable<T>,
  atEpochMs: number,
  maximumAgeMinutes: number,
): T | null {
  let nearest: T | null = null
  for (const reading of readings) {
    const ageMs = atEpochMs - reading.atEpochMs
    if (ageMs < 0 || ageMs > maximumAgeMinutes * 60_000) continue
    if (nearest === null || reading.atEpochMs > nearest.atEpochMs) nearest = reading
  }
  return nearest
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
