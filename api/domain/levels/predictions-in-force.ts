import { groupBy } from '../group-by.ts'
import type { Prediction, Stage } from '../site/tables.ts'
import type { Measure } from '../site/vocabulary.ts'

/** The stage whose predictions stand at an instant, and them, from the top down. */
export interface StagePredictions {
  readonly stage: Stage
  readonly predictions: readonly Prediction[]
}

/**
 * What the design expects of an instrument's measure at an instant: the predictions of the latest stage begun by then that
 * has any, of each depth the one that stands at that instant. Null where none has begun. They are for the stage's end, so
 * before it they are what is still to come.
 */
export function predictionsInForce(
  all: readonly Prediction[],
  stages: readonly Stage[],
  { instrument, measure, atEpochMs }: { instrument: string; measure: Measure; atEpochMs: number },
): StagePredictions | null {
  const own = all.filter(
    (one) => one.instrument === instrument && one.measure === measure && one.validFrom <= atEpochMs,
  )
  const begun = stages
    .filter((stage) => stage.startsAt <= atEpochMs && own.some((one) => one.stage === stage.id))
    .toSorted((one, other) => other.startsAt - one.startsAt)
  const [stage] = begun
  if (stage === undefined) return null
  const ofStage = groupBy(
    own.filter((one) => one.stage === stage.id),
    ({ depthMetres }) => depthMetres,
  )
  const predictions = [...ofStage.values()].flatMap((versions) => {
    const latest = versions.toSorted((one, other) => other.validFrom - one.validFrom)[0]
    return latest === undefined ? [] : [latest]
  })
  return {
    stage,
    predictions: predictions.toSorted((one, other) => (one.depthMetres ?? -1) - (other.depthMetres ?? -1)),
  }
}

/** Least and most expected at a depth, straight between the depths predicted; null outside them. */
export function expectedAtDepth(
  predictions: readonly Prediction[],
  depthMetres: number,
): { readonly low: number; readonly high: number } | null {
  const placed = predictions.flatMap(({ depthMetres: at, low, high }) =>
    at === null ? [] : [{ at, low, high }],
  )
  const below = placed.findIndex(({ at }) => at >= depthMetres - 1e-9)
  const [upper, lower] = [placed[below - 1], placed[below]]
  if (lower === undefined) return null
  if (Math.abs(lower.at - depthMetres) <= 1e-9) return { low: lower.low, high: lower.high }
  if (upper === undefined) return null
  const share = (depthMetres - upper.at) / (lower.at - upper.at)
  return {
    low: upper.low + share * (lower.low - upper.low),
    high: upper.high + share * (lower.high - upper.high),
  }
}
