import type { PlacedInstrument, PlacedPoint, Series } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { publishedDepth } from '../depth-profile/published-profile.ts'

/** Deflections of a traversed casing as they were published, each at the end of its interval that it is told for. */
export function traversedPlaces(
  instrument: PlacedInstrument,
  members: readonly PlacedPoint[],
  seriesOf: ReadonlyMap<string, Series>,
  states: ReadonlyMap<number, SeriesState>,
  axis: 'a' | 'b',
) {
  return members
    .flatMap((point) => {
      // What is made of the whole casing (a greatest deflection) stands at no depth.
      if (point.id === instrument.id) return []
      const series = seriesOf.get(`${point.id}/${axis === 'a' ? 'deflection' : 'deflection-b'}`)
      const value = series ? (states.get(series.series)?.value ?? null) : null
      return value === null ? [] : [{ depthMetres: publishedDepth(instrument, point), millimetres: value }]
    })
    .toSorted((one, other) => one.depthMetres - other.depthMetres)
}
