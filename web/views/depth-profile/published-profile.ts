import type { PlacedInstrument, PlacedPoint, SiteDocument } from '#contract/site-document.ts'
import type { Measure } from '#domain/site/vocabulary.ts'

/**
 * The measure of series that already are the profile of an instrument, made when values are published; null where it
 * is made here from members, or the site has no such series.
 */
export function publishedMeasure(
  document: SiteDocument,
  instrument: PlacedInstrument,
  axis: 'a' | 'b',
): Measure | null {
  const measure = measureOf(instrument, axis)
  const points = new Set(instrument.points)
  const anchors = document.series.filter(
    (series) => series.measure === measure && points.has(series.point) && series.point !== instrument.id,
  )
  return measure !== null && anchors.length > 0 ? measure : null
}

function measureOf({ kind, fixedEnd }: PlacedInstrument, axis: 'a' | 'b'): Measure | null {
  if (kind === 'extensometer')
    return fixedEnd === 'surveyed-head'
      ? 'settlement'
      : fixedEnd === 'deepest-anchor'
        ? 'relative-displacement'
        : null
  if (kind === 'in-place-inclinometer') return fixedEnd === 'surveyed-head' ? 'deflection' : null
  if (kind === 'traversed-inclinometer') return axis === 'a' ? 'deflection' : 'deflection-b'
  return null
}

/** Depth at which a published value holds: anchors where they are, segments at the end away from the one it is told from. */
export function publishedDepth({ kind, fixedEnd }: PlacedInstrument, point: PlacedPoint): number {
  if (kind === 'extensometer') return point.depthMetres
  return point.depthMetres + ((fixedEnd === 'toe' ? -1 : 1) * (point.gaugeLengthMetres ?? 0)) / 2
}

/** What the values are told from, as a sentence below the profile. */
export function publishedSentence({ kind, fixedEnd }: PlacedInstrument): string {
  if (kind === 'extensometer')
    return fixedEnd === 'surveyed-head'
      ? 'Settlement of each anchor from that of the head, by its last survey at or before each reading.'
      : 'Displacements are relative to the deepest anchor, taken to be still: it lies on the line of nought.'
  return fixedEnd === 'surveyed-head'
    ? 'Movements are added up from the head, by its last survey at or before each reading; each is drawn at its segment’s base.'
    : `Movements against the zero survey, added up from the ${fixedEnd}, taken to be still; each is drawn at its interval’s ${fixedEnd === 'toe' ? 'top' : 'base'}.`
}
