import type { SiteDocument } from '#contract/site-document.ts'
import { metresBetween, type Place } from '#domain/geometry/straight-distance.ts'

export interface NearInstrument {
  readonly instrument: string
  /** On the plan, straight. */
  readonly awayMetres: number
}

/** Instruments in use nearest to a place, nearest first; equally near ones by name. Those without a known place are left out. */
export function nearestInstruments(
  { instruments, locations }: Pick<SiteDocument, 'instruments' | 'locations'>,
  from: Place,
  atEpochMs: number,
  count: number,
): readonly NearInstrument[] {
  const places = new Map(locations.map((place) => [place.id, place]))
  return instruments
    .flatMap(({ id, location, retiredAtEpochMs }) => {
      const place = places.get(location)
      if (!place || (retiredAtEpochMs !== null && retiredAtEpochMs <= atEpochMs)) return []
      return { instrument: id, awayMetres: metresBetween(from, place) }
    })
    .sort(
      (one, other) =>
        one.awayMetres - other.awayMetres ||
        one.instrument.localeCompare(other.instrument, 'en', { numeric: true }),
    )
    .slice(0, count)
}
