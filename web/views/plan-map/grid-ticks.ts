import type { SitePoint } from '#domain/geometry/site-grid.ts'

/** Site grid coordinates of the corners of what the plan shows. */
export interface SheetCorners {
  readonly topLeft: SitePoint
  readonly topRight: SitePoint
  readonly bottomLeft: SitePoint
  readonly bottomRight: SitePoint
}

/** Where a grid line meets an edge of the sheet: `along` is 0 at its left or top end and 1 at the other. */
export interface GridTick {
  readonly edge: 'top' | 'bottom' | 'left' | 'right'
  readonly along: number
  readonly axis: 'E' | 'N'
  readonly metres: number
}

/** A round spacing (1, 2 or 5 times a power of ten metres) of at least `leastMetres`. */
export function roundSpacing(leastMetres: number): number {
  const decade = 10 ** Math.floor(Math.log10(leastMetres))
  const step = [1, 2, 5, 10].find((multiple) => multiple * decade >= leastMetres) ?? 10
  return step * decade
}

/**
 * Ticks of the site grid along the edges of the sheet. Over a site the projection is straight to far less
 * than a pixel, so coordinates run linearly along an edge. An edge carries the axis that changes most along it.
 */
export function gridTicks(corners: SheetCorners, spacingMetres: number): readonly GridTick[] {
  const { topLeft, topRight, bottomLeft, bottomRight } = corners
  return [
    ...edgeTicks('top', topLeft, topRight, spacingMetres),
    ...edgeTicks('bottom', bottomLeft, bottomRight, spacingMetres),
    ...edgeTicks('left', topLeft, bottomLeft, spacingMetres),
    ...edgeTicks('right', topRight, bottomRight, spacingMetres),
  ]
}

/** `500 040`: metres in groups of three with narrow spaces. */
export function groupedMetres(metres: number): string {
  return String(Math.round(metres)).replace(/\B(?=(\d{3})+$)/g, '\u202f')
}

function edgeTicks(
  edge: GridTick['edge'],
  from: SitePoint,
  to: SitePoint,
  spacingMetres: number,
): readonly GridTick[] {
  const axis = Math.abs(to[0] - from[0]) >= Math.abs(to[1] - from[1]) ? 'E' : 'N'
  const [first, last] = axis === 'E' ? [from[0], to[0]] : [from[1], to[1]]
  const ticks: GridTick[] = []
  if (!Number.isFinite(first + last) || first === last) return ticks
  const low = Math.ceil(Math.min(first, last) / spacingMetres)
  const high = Math.floor(Math.max(first, last) / spacingMetres)
  for (let step = low; step <= high; step += 1) {
    const metres = step * spacingMetres
    ticks.push({ edge, axis, metres, along: Math.abs((metres - first) / (last - first)) })
  }
  return ticks
}
