import { settlementAt, slopeAt, type Trough } from '../trough.ts'
import { horizontalDisplacementAt } from './horizontal-ground-movement.ts'

/** A part of a building that bends one way, without stiffness of its own. */
export interface BendingPart {
  readonly mode: 'sagging' | 'hogging'
  readonly fromOffsetMetres: number
  readonly toOffsetMetres: number
  /** Greatest distance of the ground from the straight line between the part's ends, mm, and where. */
  readonly greatestDeflectionMm: number
  readonly greatestDeflectionAtMetres: number
  /** Deflection over length, without unit. */
  readonly deflectionRatio: number
  /** Change of horizontal displacement over the length, without unit, extension positive. */
  readonly meanHorizontalStrain: number
}

/**
 * A building across a trough, cut where the trough turns from sagging to hogging, at ±i (Mair, Taylor and Burland
 * 1996). The building follows the ground as if it had no stiffness: strains are on the high side.
 */
export function partsOverTrough(
  trough: Trough,
  axisDepthMetres: number,
  fromOffsetMetres: number,
  toOffsetMetres: number,
): readonly BendingPart[] {
  const { widthMetres } = trough
  const cuts = [-widthMetres, widthMetres].filter((cut) => cut > fromOffsetMetres && cut < toOffsetMetres)
  const ends = [fromOffsetMetres, ...cuts, toOffsetMetres]
  return ends.slice(1).flatMap((to, at) => {
    const from = ends[at] as number
    const length = to - from
    if (!(length > 0)) return []
    const chord = (settlementAt(trough, to) - settlementAt(trough, from)) / length
    const sags = Math.abs((from + to) / 2) < widthMetres
    const place = whereSlopeIs(trough, chord, from, to, sags)
    const line = settlementAt(trough, from) + chord * (place - from)
    const greatestDeflectionMm = Math.abs(settlementAt(trough, place) - line)
    const moved = (offset: number) => horizontalDisplacementAt(trough, axisDepthMetres, offset)
    return [
      {
        mode: sags ? ('sagging' as const) : ('hogging' as const),
        fromOffsetMetres: from,
        toOffsetMetres: to,
        greatestDeflectionMm,
        greatestDeflectionAtMetres: place,
        deflectionRatio: greatestDeflectionMm / 1000 / length,
        meanHorizontalStrain: (moved(to) - moved(from)) / 1000 / length,
      },
    ]
  })
}

/** The slope falls all along a sagging part and rises all along a hogging one, so halving finds the one place. */
function whereSlopeIs(trough: Trough, slope: number, from: number, to: number, falls: boolean): number {
  let [low, high] = [from, to]
  for (let round = 0; round < 60; round++) {
    const middle = (low + high) / 2
    if (slopeAt(trough, middle) > slope === falls) low = middle
    else high = middle
  }
  return (low + high) / 2
}
