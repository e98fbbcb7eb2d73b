import type { Prediction, Stage } from '../site/tables.ts'
import type { Measure } from '../site/vocabulary.ts'
import { type EnvelopeSpan, predictionEnvelope } from './prediction-envelope.ts'

/** What the design expects of a series stage by stage: of its instrument as a whole, or at the depth of its point. */
export function seriesEnvelope(
  {
    predictions,
    stages,
    points,
  }: {
    readonly predictions: readonly Prediction[]
    readonly stages: readonly Stage[]
    readonly points: readonly {
      readonly id: string
      readonly instrument: string
      readonly depthMetres: number
    }[]
  },
  { point, measure }: { readonly point: string; readonly measure: Measure },
): readonly EnvelopeSpan[] {
  const place = points.find(({ id }) => id === point)
  const instrument = place?.instrument ?? point
  const ofWhole = !place || place.id === instrument
  return predictionEnvelope(predictions, stages, {
    instrument,
    measure,
    depthMetres: ofWhole ? null : place.depthMetres,
  })
}
