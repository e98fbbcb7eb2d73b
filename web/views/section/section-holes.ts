import type { SiteDocument } from '#contract/site-document.ts'
import type { SectionHole } from './section-props.ts'

/** Holes of the site, the strata of each from the top. */
export function holesOf(document: SiteDocument): SectionHole[] {
  return document.locations
    .filter((location) => location.kind === 'hole')
    .map((location) => ({
      ...location,
      strata: document.strata
        .filter((layer) => layer.location === location.id)
        .map((layer) => ({ ...layer, name: layer.stratum }))
        .toSorted((left, right) => right.topLevelMetres - left.topLevelMetres),
    }))
}
