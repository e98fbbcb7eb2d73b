import { isAboveNoise } from '../levels/level-above-noise.ts'
import { quantityText } from '../reduction/number-text.ts'
import type { TriggerLevel } from '../site/tables.ts'
import type { HeldBaseline } from './baselines-of-sensor.ts'

/** A doubt about a trigger level, in words. */
export interface LevelCaution {
  /** Id of the level. */
  readonly level: string
  readonly sentence: string
}

/**
 * Levels of one series that lie nearer to the mean zero of a calibration in force during their time than the smallest
 * detectable change: reached by noise alone, or past before a change shows. A caution, not a refusal; where no zero
 * readings are recorded nothing is said. An `either` level stands on both sides of 0, and the nearer counts.
 */
export function levelsInsideNoise(
  levels: readonly TriggerLevel[],
  baselines: readonly HeldBaseline[],
  unit: string,
): readonly LevelCaution[] {
  return levels.flatMap((level) =>
    baselines.flatMap(({ calibration, fromEpochMs, untilEpochMs, baseline }): LevelCaution[] => {
      const noise = baseline?.smallestDetectableChange ?? null
      if (baseline === null || noise === null) return []
      const together =
        level.validFrom < (untilEpochMs ?? Infinity) && fromEpochMs < (level.validUntil ?? Infinity)
      const sides = level.direction === 'either' ? [level.value, -level.value] : [level.value]
      const away = Math.min(...sides.map((value) => Math.abs(value - baseline.mean)))
      if (!together || isAboveNoise(away, noise)) return []
      return [
        {
          level: level.id,
          sentence: `This level lies ${two(away, unit)} from the mean zero of ${calibration}. A single reading there shows a change of ${two(noise, unit)} or more (95 % confidence, 80 % power): noise alone may reach the level.`,
        },
      ]
    }),
  )
}

const two = (value: number, unit: string): string => quantityText(Number(value.toPrecision(2)), unit)
