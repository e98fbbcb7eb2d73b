import type { Layer } from '@deck.gl/core'
import type { LngLat, SitePoint } from '#domain/geometry/site-grid.ts'
import { roundSpacing } from './grid-ticks.ts'
import { sectionLineLayers } from './layers/section-line-layers.ts'
import type { PlanMapProps } from './plan-map-props.ts'
import { chainageMarks, lineLengthMetres } from './section-chainage.ts'

/** The section line as it is or is being drawn, with round distances along it. */
export function chainageLayers(props: PlanMapProps, draft: readonly LngLat[]): Layer[] {
  const { grid } = props
  const corners = props.drawingSection && draft.length > 0 ? draft : props.sectionLine
  const onGrid = grid ? corners.map((corner): SitePoint => grid.toGrid(corner)) : []
  const spacing = roundSpacing(Math.max(1, lineLengthMetres(onGrid) / 8))
  const marks =
    grid && onGrid.length >= 2
      ? chainageMarks(onGrid, spacing).map((mark) => ({
          at: grid.toLngLat(mark.at),
          chainageMetres: mark.chainageMetres,
        }))
      : []
  return sectionLineLayers({
    corners,
    marks,
    palette: props.palette,
    drawing: props.drawingSection,
    leastTextPixels: props.leastTextPixels,
  })
}
