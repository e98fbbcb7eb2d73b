import { type Station, stationOf } from './alignment.ts'
import type { SitePosition } from './hole.ts'
import type { SitePoint } from './site-grid.ts'

/** A position brought onto a section: along it, beside it, and at its level. */
export interface OnSection extends Station {
  readonly levelMetres: number
}

/**
 * Brings positions at right angles onto a section line of straight pieces, in the order given. Null where one
 * lies further from the line than `withinMetres`, or beyond its ends: it is not seen in this section.
 */
export function projectOntoSection(
  line: readonly SitePoint[],
  positions: readonly SitePosition[],
  withinMetres: number,
): readonly (OnSection | null)[] {
  return positions.map(({ eastingMetres, northingMetres, levelMetres }) => {
    const station = stationOf(line, [eastingMetres, northingMetres])
    if (!station || station.beyond !== null || station.distanceMetres > withinMetres) return null
    return { ...station, levelMetres }
  })
}
