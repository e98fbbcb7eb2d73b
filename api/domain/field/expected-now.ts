import { expectedAtDepth, predictionsInForce } from '../levels/predictions-in-force.ts'
import type { Prediction, Stage } from '../site/tables.ts'
import type { Measure } from '../site/vocabulary.ts'

/**
 * The band in which a reading is expected at an instant, unit of its measure: from nothing moved to the most that the
 * design expects by the end of the stage begun last. `depthMetres` null: of the instrument as a whole. Null where nothing
 * was predicted.
 */
export function expectedNow(
  site: { readonly predictions: readonly Prediction[]; readonly stages: readonly Stage[] },
  asked: {
    readonly instrument: string
    readonly measure: Measure
    readonly depthMetres: number | null
    readonly atEpochMs: number
  },
): { readonly low: number; readonly high: number } | null {
  const found = predictionsInForce(site.predictions, site.stages, asked)
  if (found === null) return null
  const whole = found.predictions.find(({ depthMetres }) => depthMetres === null)
  const band =
    whole ?? (asked.depthMetres === null ? null : expectedAtDepth(found.predictions, asked.depthMetres))
  return band && { low: Math.min(0, band.low), high: Math.max(0, band.high) }
}
