import type { Position } from 'geojson'
import type { SitePoint } from '#domain/geometry/site-grid.ts'
import type { SheetCorners } from '../plan-map/grid-ticks.ts'
import { siteBounds } from '../plan-map/site-bounds.ts'
import type { PlanFigureProps, PlanFigureSize } from './plan-figure-props.ts'

/** Where the plan stands in its figure: the frame, and the metres of the site within it. */
export interface PlanFigureLayout extends PlanFigureSize {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  readonly metresPerPixel: number
  readonly corners: SheetCorners
  readonly radiusPixels: number
  readonly toPixels: (point: SitePoint) => readonly [x: number, y: number]
  readonly ofPosition: (position: Position) => readonly [x: number, y: number]
}

/** Room between the frame and the key in text sizes: the grid's figures and what instant the plan is of. */
export const underFrameShare = 3
/** Height of a row of the key in text sizes. */
export const keyRowShare = 1.7

/** Fits what is shown into the frame, one scale both ways; `keyRows` lines of the key stand below it. */
export function layOutPlanFigure(
  props: PlanFigureProps,
  size: PlanFigureSize,
  keyRows: number,
): PlanFigureLayout {
  const font = size.fontPixels
  const left = font * 1.7
  const right = size.widthPixels - font * 1.7
  const top = font * 1.7
  const bottom = Math.max(
    top + font * 4,
    size.heightPixels - font * (underFrameShare + keyRowShare * keyRows),
  )
  const [lowest, highest] = props.extent ?? wholeExtent(props)
  const [wide, high] = [highest[0] - lowest[0], highest[1] - lowest[1]]
  const metresPerPixel = Math.max(wide / (right - left), high / (bottom - top), 1e-6)
  const middle: SitePoint = [(lowest[0] + highest[0]) / 2, (lowest[1] + highest[1]) / 2]
  const toPixels = ([easting, northing]: SitePoint): readonly [number, number] => [
    (left + right) / 2 + (easting - middle[0]) / metresPerPixel,
    (top + bottom) / 2 - (northing - middle[1]) / metresPerPixel,
  ]
  const ofPosition = (position: Position) => toPixels(props.grid.toGrid([position[0] ?? 0, position[1] ?? 0]))
  const corner = (x: number, y: number): SitePoint => [
    middle[0] + (x - (left + right) / 2) * metresPerPixel,
    middle[1] - (y - (top + bottom) / 2) * metresPerPixel,
  ]
  return {
    ...size,
    left,
    right,
    top,
    bottom,
    metresPerPixel,
    corners: {
      topLeft: corner(left, top),
      topRight: corner(right, top),
      bottomLeft: corner(left, bottom),
      bottomRight: corner(right, bottom),
    },
    radiusPixels: radiusOf(
      props.symbols.map((symbol) => ofPosition([symbol.longitude, symbol.latitude])),
      font,
    ),
    toPixels,
    ofPosition,
  }
}

/** Symbols are smaller where many of them touch; never so small that their kind is not drawn. */
function radiusOf(places: readonly (readonly [number, number])[], font: number): number {
  const radius = font * 0.78
  const touching = places.filter(([x, y], place) =>
    places.some(
      ([otherX, otherY], other) => other !== place && Math.hypot(otherX - x, otherY - y) < radius * 1.8,
    ),
  )
  return touching.length * 4 > places.length ? Math.max(7, font * 0.62) : radius
}

/** Symbols within the extent that is asked for. */
export const shownSymbols = ({ symbols, extent, grid }: PlanFigureProps) =>
  symbols.filter(({ longitude, latitude }) => {
    if (!extent) return true
    const [easting, northing] = grid.toGrid([longitude, latitude])
    const [[west, south], [east, north]] = extent
    return easting >= west && easting <= east && northing >= south && northing <= north
  })

/** Every symbol and the site's boundary, with a rim of a twelfth around them. */
function wholeExtent(props: PlanFigureProps): readonly [SitePoint, SitePoint] {
  const [west, south, east, north] = siteBounds(props)
  const corners = [
    [west, south],
    [east, south],
    [west, north],
    [east, north],
  ].map((corner) => props.grid.toGrid(corner as [number, number]))
  const eastings = corners.map(([easting]) => easting)
  const northings = corners.map(([, northing]) => northing)
  const [low, high] = [Math.min(...eastings), Math.max(...eastings)]
  const [foot, head] = [Math.min(...northings), Math.max(...northings)]
  const rim = Math.max(high - low, head - foot, 10) / 24
  return [
    [low - rim, foot - rim],
    [high + rim, head + rim],
  ]
}
