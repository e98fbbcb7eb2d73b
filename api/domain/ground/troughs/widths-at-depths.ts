import type { Station } from '../../geometry/alignment.ts'
import type { SitePoint } from '../../geometry/site-grid.ts'
import { accept, type Outcome, reject } from '../../outcome.ts'
import { type LeftOut, reasonWithoutValue } from '../analysis.ts'
import type { Estimate } from './fit-trough.ts'
import {
  type SettledPlace,
  type TroughAcross,
  type TroughAcrossOptions,
  troughAcross,
} from './trough-across.ts'
import type { WidthAtDepth } from './width-with-depth.ts'

export interface WidthsAtDepths {
  /** The surface first, then deeper. */
  readonly widths: readonly WidthAtDepth[]
  /** Places below ground that tell no width. */
  readonly leftOut: readonly LeftOut<SettledPlace>[]
}

/** A place farther from the middle than this share of i lies on the flank, where depth and width cannot be told apart. */
const nearMiddle = 0.5
/** A head stands over its anchor within this. */
const headWithinMetres = 1

/**
 * Widths of the trough at the surface and at the depths where settlement is measured. At a depth with points across the
 * line a trough is fitted; with points over the line only, i follows from the settlement there against that of the head
 * above, if no volume is lost between (i S the same). Refused where the surface shows no trough or nothing below ground
 * is measured.
 */
export function widthsAtDepths(
  places: readonly SettledPlace[],
  stationOf: (point: SitePoint) => Station | null,
  options: Omit<TroughAcrossOptions, 'pointDepthMetres'>,
): Outcome<WidthsAtDepths> {
  const below = places
    .filter(({ depthMetres }) => depthMetres > 0.5)
    .toSorted((one, other) => one.depthMetres - other.depthMetres)
  if (below.length === 0)
    return reject({
      code: 'no-settlement-below-ground',
      message:
        'No settlement is measured below ground within these offsets, so how the trough narrows with depth cannot be told. It needs anchors of extensometers whose head is levelled (anchorPositive, surveyedPoint and surveyMaximumAgeDays of instruments.csv).',
    })
  const surface = troughAcross(places, stationOf, { ...options, pointDepthMetres: 0 })
  if (!surface.ok) return surface
  const widths: WidthAtDepth[] = [
    { depthMetres: 0, widthMetres: surface.value.fitted.widthMetres, basis: 'fitted' },
  ]
  const leftOut: LeftOut<SettledPlace>[] = []
  for (const depthMetres of new Set(below.map((place) => place.depthMetres))) {
    const own = below.filter((place) => place.depthMetres === depthMetres)
    const across = troughAcross(own, stationOf, { ...options, pointDepthMetres: depthMetres })
    if (across.ok) {
      const { widthMetres, used } = across.value.fitted
      widths.push({ depthMetres, widthMetres, basis: 'fitted', points: used.map(({ id }) => id) })
      continue
    }
    for (const place of own) {
      const found = widthOverLine(place, places, stationOf, surface.value)
      if (typeof found === 'string') leftOut.push({ item: place, reason: found })
      else widths.push({ depthMetres, widthMetres: found, basis: 'volume-kept', points: [place.id] })
    }
  }
  if (widths.length === 1)
    return reject(
      {
        code: 'no-width-below-ground',
        message:
          'No width can be told below ground: it needs settlements at one depth across the line, or over it below a levelled head.',
      },
      ...leftOut.map(({ item, reason }) => ({
        code: 'place-left-out',
        value: item.id,
        message: `${item.id} is left out. ${reason}`,
      })),
    )
  return accept({ widths, leftOut })
}

/** i at a place over the line, or why it tells none. */
function widthOverLine(
  place: SettledPlace,
  places: readonly SettledPlace[],
  stationOf: (point: SitePoint) => Station | null,
  { fitted }: TroughAcross,
): Estimate | string {
  const reason = reasonWithoutValue(place.settlementMm, place.late)
  if (reason !== null) return reason
  const station = stationOf([place.eastingMetres, place.northingMetres])
  if (station === null || station.beyond !== null) return 'It stands beyond the ends of the line.'
  const { value: width, standardError: widthError } = fitted.widthMetres
  const awayMetres = Math.abs(station.offsetMetres - fitted.centreOffsetMetres.value)
  if (awayMetres > nearMiddle * width)
    return `It stands ${awayMetres.toFixed(1)} m from the middle of the trough, on its flank, with no others across the line at its depth.`
  const head = places.find(
    (one) =>
      one.depthMetres === 0 &&
      reasonWithoutValue(one.settlementMm, one.late) === null &&
      Math.hypot(one.eastingMetres - place.eastingMetres, one.northingMetres - place.northingMetres) <=
        headWithinMetres,
  )
  if (!head) return 'No point above it is levelled and current.'
  const [above, own] = [head.settlementMm as number, place.settlementMm as number]
  const [aboveError, ownError] = [head.standardUncertaintyMm, place.standardUncertaintyMm]
  if (aboveError === null || ownError === null)
    return 'The error of its settlement, or of its head, is not known.'
  if (!(own > 2 * ownError && above > 2 * aboveError))
    return 'Its settlement, or that of its head, is not above twice its standard uncertainty.'
  const middle = above * Math.exp(0.5 * (awayMetres / width) ** 2)
  const narrowed = narrowedWidth((width * middle) / own, awayMetres)
  if (narrowed === null) return 'It settles more than any trough of that volume would there.'
  // S of anchor and head share the levelling of the head, which lessens the error of their ratio; it counts in full.
  const relative = Math.hypot(widthError / width, aboveError / above, ownError / own)
  // Off the middle the offset enters too: d ln i = d ln a / (1 − y²/i²).
  return { value: narrowed, standardError: (narrowed * relative) / (1 - (awayMetres / narrowed) ** 2) }
}

/** i of the trough whose settlement at an offset is that of volume over i: i = a exp(−y²/2i²), the wide root. Null: none. */
function narrowedWidth(middleWidthMetres: number, awayMetres: number): number | null {
  let width = middleWidthMetres
  for (let round = 0; round < 100; round++) {
    const next = middleWidthMetres * Math.exp(-0.5 * (awayMetres / width) ** 2)
    if (!(next > awayMetres)) return awayMetres === 0 ? middleWidthMetres : null
    if (Math.abs(next - width) < 1e-12 * width) break
    width = next
  }
  return width
}
