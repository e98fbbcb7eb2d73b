import type { Series, SiteDocument } from '#contract/site-document.ts'
import { type EnvelopeSpan, predictionEnvelope } from '#domain/levels/prediction-envelope.ts'

/** What the design expects of a series stage by stage: of its instrument as a whole, or at the depth of its point. */
export function seriesEnvelope(
  { predictions, stages, points }: Pick<SiteDocument, 'predictions' | 'stages' | 'points'>,
  { point, measure }: Pick<Series, 'point' | 'measure'>,
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
