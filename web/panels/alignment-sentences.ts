import type { Station } from '#domain/geometry/alignment.ts'
import { chordErrorMetres, type WorksAlignment } from '#domain/geometry/alignment-of-works.ts'
import type { SitePoint } from '#domain/geometry/site-grid.ts'
import { formatValue } from '../ui/format-value.ts'

/** From where chainage and offset along an alignment are told. */
export const alignmentSentence = ({ name, byElements, startChainageMetres, lengthMetres }: WorksAlignment) =>
  byElements
    ? `Along ${name}, by its straights and arcs, from chainage ${formatValue(startChainageMetres, 3)} to ${formatValue(startChainageMetres + lengthMetres, 3)} m. Right of travel is +.`
    : `Along ${name}, by the line as drawn, from 0 where it begins to ${formatValue(lengthMetres, 1)} m. Right of travel is +.`

/** Chainage and offset of a place, or on which side it lies beyond the ends. */
export function stationTexts(station: Station | null): readonly [chainage: string, offset: string] {
  if (!station) return ['–', '–']
  const chainage = formatValue(station.chainageMetres, 2)
  const offset = `${station.offsetMetres > 0 ? '+' : ''}${formatValue(station.offsetMetres, 2)}`
  return station.beyond === null ? [chainage, offset] : [`${chainage}, beyond its ${station.beyond}`, offset]
}

/** The same in a sentence. */
export function placeSentence(alignment: string, point: string, station: Station | null): string {
  if (!station) return `${point} has no place along “${alignment}”`
  const { chainageMetres, offsetMetres, beyond } = station
  const side =
    offsetMetres === 0
      ? 'on it'
      : `${formatValue(Math.abs(offsetMetres), 2)} m ${offsetMetres > 0 ? 'right' : 'left'} of travel`
  return `${point} along “${alignment}”: chainage ${formatValue(chainageMetres, 2)} m${beyond === null ? '' : ` beyond its ${beyond}`}, ${side}`
}

/**
 * Corners of a section across an alignment, from left to right seen in its direction, or along it between two
 * chainages, arcs as chords within 10 mm. Null where a chainage lies beyond its ends or both are the same.
 */
export function sectionOnAlignment(
  alignment: WorksAlignment,
  cut:
    | { readonly across: number; readonly reachMetres: number }
    | { readonly from: number; readonly until: number },
): readonly SitePoint[] | null {
  const { startChainageMetres: start, lengthMetres, pointAt } = alignment
  const isOn = (chainage: number) => chainage >= start && chainage <= start + lengthMetres
  if ('across' in cut) {
    const ends = [pointAt(cut.across, -cut.reachMetres), pointAt(cut.across, cut.reachMetres)]
    return isOn(cut.across) && cut.reachMetres > 0 ? ends.flatMap((end) => (end ? [end] : [])) : null
  }
  const [low, high] = [Math.min(cut.from, cut.until), Math.max(cut.from, cut.until)]
  if (!isOn(low) || !isOn(high) || high - low < chordErrorMetres) return null
  const between = alignment.corners.filter((corner) => {
    const chainage = alignment.stationOf(corner)?.chainageMetres ?? Number.NaN
    return chainage > low + chordErrorMetres && chainage < high - chordErrorMetres
  })
  const ends = [pointAt(low), pointAt(high)] as const
  const corners = [ends[0], ...between, ends[1]].flatMap((corner) => (corner ? [corner] : []))
  return cut.until < cut.from ? corners.toReversed() : corners
}
