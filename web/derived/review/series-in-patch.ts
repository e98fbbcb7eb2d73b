import type { Series, SiteDocument } from '#contract/site-document.ts'
import type { SitePoint } from '#domain/geometry/site-grid.ts'
import { type Place, placesOf } from '#domain/review/case/places-of.ts'
import { outOfUseSince } from '#domain/site/series-ends.ts'
import type { Measure } from '#domain/site/vocabulary.ts'

/** A part of the plan, as `state/patch.ts` has it. */
export type PatchArea =
  | { readonly kind: 'around'; readonly radiusMetres: number }
  | {
      readonly kind: 'area'
      readonly corners: readonly { readonly eastingMetres: number; readonly northingMetres: number }[]
    }

type Middle = Pick<Place, 'eastingMetres' | 'northingMetres'> | null

/** Corners of a patch on the site grid; empty where it lies around nothing. */
export function outlineOfPatch(patch: PatchArea, middle: Middle): readonly SitePoint[] {
  if (patch.kind === 'area')
    return patch.corners.map(
      ({ eastingMetres, northingMetres }): SitePoint => [eastingMetres, northingMetres],
    )
  if (!middle) return []
  return Array.from({ length: 48 }, (_, place): SitePoint => {
    const turn = (2 * Math.PI * place) / 48
    return [
      middle.eastingMetres + patch.radiusMetres * Math.cos(turn),
      middle.northingMetres + patch.radiusMetres * Math.sin(turn),
    ]
  })
}

/** Series within a patch, by the place of their point on the plan, in the order of the records; those out of use at the instant are left out. */
export function seriesInPatch(
  site: Pick<SiteDocument, 'series' | 'points' | 'instruments' | 'locations'>,
  patch: PatchArea,
  middle: Middle,
  atEpochMs: number,
): readonly Series[] {
  const places = placesOf(site)
  return site.series.filter((one) => {
    const place = places.get(one.point)
    return (
      place !== undefined && outOfUseSince(site, one, atEpochMs) === null && isWithin(place, patch, middle)
    )
  })
}

/** Quantities that series of a patch are of, the one with most series first. */
export function measuresOf(
  series: readonly Series[],
): readonly { readonly measure: Measure; readonly count: number }[] {
  const counts = new Map<Measure, number>()
  for (const { measure } of series) counts.set(measure, (counts.get(measure) ?? 0) + 1)
  return [...counts]
    .map(([measure, count]) => ({ measure, count }))
    .toSorted((one, other) => other.count - one.count)
}

function isWithin(place: Place, patch: PatchArea, middle: Middle): boolean {
  if (patch.kind === 'around')
    return (
      middle !== null &&
      Math.hypot(place.eastingMetres - middle.eastingMetres, place.northingMetres - middle.northingMetres) <=
        patch.radiusMetres
    )
  let inside = false
  const { corners } = patch
  corners.forEach((one, i) => {
    const other = corners[(i + 1) % corners.length] as (typeof corners)[number]
    if (one.northingMetres > place.northingMetres === other.northingMetres > place.northingMetres) return
    const share = (place.northingMetres - one.northingMetres) / (other.northingMetres - one.northingMetres)
    if (place.eastingMetres < one.eastingMetres + share * (other.eastingMetres - one.eastingMetres))
      inside = !inside
  })
  return inside
}
