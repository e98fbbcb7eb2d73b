import type { Works } from '../site/site.ts'
import type { AlignmentElementRow } from '../site/tables.ts'
import { lengthOfLine, pointAtChainage, type Station, stationOf } from './alignment.ts'
import {
  type AlignmentElement,
  cornersOfAlignment,
  pointOnAlignment,
  stationOnAlignment,
} from './curved-alignment.ts'
import type { SiteGrid, SitePoint } from './site-grid.ts'

/** How far a drawn chord may lie inside its arc. */
export const chordErrorMetres = 0.01

/** A line of the works along which chainage is told: exactly, by its elements, or along the line as drawn, from 0. */
export interface WorksAlignment {
  readonly id: string
  readonly name: string
  readonly byElements: boolean
  readonly startChainageMetres: number
  readonly lengthMetres: number
  /** Its corners, no arc further than `chordErrorMetres` from a chord. */
  readonly corners: readonly SitePoint[]
  /** Chainage and offset (right of travel positive) of a point beside it; null where it has no length. */
  readonly stationOf: (point: SitePoint, options?: { readonly extended?: boolean }) => Station | null
  /** The point at a chainage and offset; beyond its ends, straight on. Null where it has no length. */
  readonly pointAt: (chainageMetres: number, offsetMetres?: number) => SitePoint | null
}

/** Alignments of a site: tunnels drawn as a line, and every line that has elements. */
export function alignmentsOfWorks(
  works: Works,
  rows: readonly AlignmentElementRow[],
  grid: SiteGrid,
): readonly WorksAlignment[] {
  return works.features.flatMap(({ geometry, properties: { id, name, kind } }): WorksAlignment[] => {
    if (geometry.type !== 'LineString') return []
    const elements = elementsOf(id, rows)
    if (elements.length > 0) return [{ id, name, ...byElements(elements) }]
    if (kind !== 'tunnel') return []
    const line = geometry.coordinates.map((place) => grid.toGrid([place[0] ?? 0, place[1] ?? 0]))
    return [{ id, name, ...asDrawn(line) }]
  })
}

/** The works with every line that has elements drawn along them, its arcs within `chordErrorMetres`. */
export function worksOnElements(works: Works, rows: readonly AlignmentElementRow[], grid: SiteGrid): Works {
  if (rows.length === 0) return works
  return {
    ...works,
    features: works.features.map((feature) => {
      const elements = elementsOf(feature.properties.id, rows)
      if (feature.geometry.type !== 'LineString' || elements.length === 0) return feature
      const coordinates = cornersOfAlignment(elements, chordErrorMetres).map((corner) => [
        ...grid.toLngLat(corner),
      ])
      return { ...feature, geometry: { type: 'LineString' as const, coordinates } }
    }),
  }
}

const elementsOf = (id: string, rows: readonly AlignmentElementRow[]) =>
  rows.filter(({ alignment }) => alignment === id).toSorted((one, other) => one.element - other.element)

const byElements = (elements: readonly AlignmentElement[]): Omit<WorksAlignment, 'id' | 'name'> => ({
  byElements: true,
  startChainageMetres: elements[0]?.startChainageMetres ?? 0,
  lengthMetres: elements.reduce((sum, { lengthMetres }) => sum + lengthMetres, 0),
  corners: cornersOfAlignment(elements, chordErrorMetres),
  stationOf: (point, options) => stationOnAlignment(elements, point, options),
  pointAt: (chainage, offset) => pointOnAlignment(elements, chainage, offset),
})

const asDrawn = (line: readonly SitePoint[]): Omit<WorksAlignment, 'id' | 'name'> => ({
  byElements: false,
  startChainageMetres: 0,
  lengthMetres: lengthOfLine(line),
  corners: line,
  stationOf: (point, options) => stationOf(line, point, options),
  pointAt: (chainage, offsetMetres = 0) => pointAtChainage(line, chainage, { offsetMetres }),
})
