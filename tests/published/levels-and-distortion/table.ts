import { foldOn } from '#domain/alerts/fold-episodes.ts'
import { beginFold } from '#domain/alerts/fold-state.ts'
import { failureInstant } from '#domain/levels/failure-time.ts'
import { isAboveNoise } from '#domain/levels/level-above-noise.ts'
import { levelOfPrediction } from '#domain/levels/level-of-prediction.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { levelFor } from '../../support/level-for.ts'
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
      held(values, thresholds, { holdReadings: persistence, hysteresisShare: hysteresis }),
    'TR-11': ({ values, thresholds }) => held(values, thresholds, {}),
    'TR-12': ({ t_d, v_mm_per_d }) => accepted(failureInstant(t_d, v_mm_per_d)).atEpochMs,
    'TR-13': ({ t_min, v, threshold, hold_min }) => {
      const levels = held(v, [threshold], { holdMinutes: hold_min }, t_min)
      return { first_true_at_min: t_min[levels.indexOf(1)] }
    },
    'TR-14': ({ t_min, v, threshold, hold_min, max_gap_min }) => {
      const holding = { holdMinutes: hold_min, longestGapMinutes: max_gap_min }
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

type Holding = Pick<TriggerLevel, 'holdReadings' | 'holdMinutes' | 'hysteresisShare' | 'longestGapMinutes'>

/** The highest level held after each value; one a minute unless told when. */
function held(
  values: readonly number[],
  thresholds: readonly number[],
  holding: Holding,
  atMinutes: readonly number[] = values.map((_, at) => at),
): readonly number[] {
  let states = thresholds.map((value, at) => beginFold(levelFor({ level: at + 1, value, ...holding })))
  return values.map((value, at) => {
    const atEpochMs = (atMinutes[at] as number) * 60_000
    states = states.map((state) => foldOn(state, { atEpochMs, receivedAtEpochMs: atEpochMs, value }))
    return Math.max(0, ...states.map(({ open }, which) => (open?.heldAtEpochMs == null ? 0 : which + 1)))
  })
}
