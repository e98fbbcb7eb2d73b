import { failureInstant } from '#domain/levels/failure-time.ts'
import { type Holding, heldAtOnce, holdLevel, nothingHeld } from '#domain/levels/held-level.ts'
import { isAboveNoise } from '#domain/levels/level-above-noise.ts'
import { levelOfPrediction } from '#domain/levels/level-of-prediction.ts'
import { accepted } from '../accepted.ts'
import type { PublishedTable } from '../published-row.ts'
import { distortionComputed } from './distortion.ts'
import { levelsAndDistortionRows } from './rows.ts'

export const levelsAndDistortion: PublishedTable = {
  area: 'levels and distortion',
  rows: levelsAndDistortionRows,
  computed: {
    ...distortionComputed,
    'TR-10': ({ values, thresholds, persistence, hysteresis }) =>
      held(values, thresholds, { ...heldAtOnce, readings: persistence, hysteresis }),
    'TR-11': ({ values, thresholds }) => held(values, thresholds, heldAtOnce),
    'TR-12': ({ t_d, v_mm_per_d }) => accepted(failureInstant(t_d, v_mm_per_d)).atEpochMs,
    'TR-13': ({ t_min, v, threshold, hold_min }) => {
      const levels = held(v, [threshold], { ...heldAtOnce, holdMs: hold_min * 60_000 }, t_min)
      return { first_true_at_min: t_min[levels.indexOf(1)] }
    },
    'TR-14': ({ t_min, v, threshold, hold_min, max_gap_min }) => {
      const holding = { ...heldAtOnce, holdMs: hold_min * 60_000, longestGapMs: max_gap_min * 60_000 }
      return { alarm: held(v, [threshold], holding, t_min).includes(1) }
    },
    'TR-15': ({ predicted_mm, amber, red }) => ({
      amber_mm: levelOfPrediction(predicted_mm, amber),
      red_mm: levelOfPrediction(predicted_mm, red),
    }),
    'TR-16': ({ trigger_mm, repeatability_mm, required_multiple }) => ({
      ok: isAboveNoise(trigger_mm, repeatability_mm, required_multiple),
    }),
  },
}

/** The level held after each value; one a minute unless told when. */
function held(
  values: readonly number[],
  thresholds: readonly number[],
  holding: Holding,
  atMinutes: readonly number[] = values.map((_, at) => at),
): readonly number[] {
  const levels = thresholds.map((value, at) => ({ level: at + 1, direction: 'above' as const, value }))
  let state = nothingHeld
  return values.map((value, at) => {
    state = holdLevel(state, { atEpochMs: (atMinutes[at] as number) * 60_000, value }, levels, holding)
    return state.level
  })
}
