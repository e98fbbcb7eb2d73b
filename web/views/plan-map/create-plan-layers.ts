import type { Layer } from '@deck.gl/core'
import type { LngLat, SitePoint } from '#domain/geometry/site-grid.ts'
import { namesLayer } from './base-style.ts'
import { roundSpacing } from './grid-ticks.ts'
import { coverageAtlasSvg, coverageLayers } from './layers/coverage-layers.ts'
import { deliveryLayers } from './layers/delivery-layers.ts'
import { noteLayers } from './layers/note-layers.ts'
import { ownPositionLayers } from './layers/own-position-layers.ts'
import { plannedLayers } from './layers/planned-layers.ts'
import { radioLayers } from './layers/radio-layers.ts'
import { sectionLineLayers } from './layers/section-line-layers.ts'
import { surfaceLayers } from './layers/surface-layers.ts'
import { symbolLayers } from './layers/symbol-layers.ts'
import type { PlanMapProps } from './plan-map-props.ts'
import { chainageMarks, lineLengthMetres } from './section-chainage.ts'
import { type AtlasPlan, drawAtlas, planAtlas } from './symbol-atlas.ts'
import { symbolSizePixels } from './symbol-size.ts'

export interface PlanLayers {
  /** Every layer above the works, in the order drawn. */
  list(props: PlanMapProps, draft: readonly LngLat[], zoom: number): Layer[]
  /** True when symbols would be drawn in another size than they are. */
  needsSize(zoom: number, scale: number): boolean
  /** Drops the icon sheets: another theme, or a lost context. */
  forget(): void
}

interface Drawn {
  readonly key: unknown
  readonly plan: Pick<AtlasPlan, 'icons'>
  image: ImageBitmap | null
}

/** Layers of the plan from its props. Icon sheets are drawn aside; `ready` is called when one has come. */
export function createPlanLayers(ready: () => void): PlanLayers {
  let symbolSheet: Drawn | undefined
  let coverageSheet: Drawn | undefined
  let size = 0
  return {
    list(props, draft, zoom) {
      size = symbolSizePixels(zoom, props.scale)
      const symbols = sheetOf(symbolSheet, `${props.levels}${props.palette.paper}`, () =>
        planAtlas(props.palette, props.levels),
      )
      symbolSheet = symbols
      const coverage =
        props.coverage.length === 0
          ? undefined
          : sheetOf(
              coverageSheet,
              props.coverage,
              () => coverageAtlasSvg(props.coverage, props.palette),
              props.palette,
            )
      coverageSheet = coverage
      const { palette } = props
      return [
        ...(props.surface
          ? surfaceLayers({ id: 'surface', surface: props.surface, palette, beforeId: namesLayer })
          : []),
        ...(props.delivery
          ? deliveryLayers({ delivery: props.delivery, palette, beforeId: namesLayer })
          : []),
        ...(coverage?.image
          ? coverageLayers({
              marks: props.coverage,
              atlas: coverage.image,
              icons: coverage.plan.icons,
              sizePixels: size * 1.1,
              beforeId: namesLayer,
            })
          : []),
        ...(symbols.image
          ? [
              ...radioLayers({
                marks: props.radio,
                atlas: symbols.image,
                icons: symbols.plan.icons,
                palette,
                sizePixels: size,
                beforeId: namesLayer,
              }),
              ...symbolLayers({
                symbols: props.symbols,
                selectedId: props.selectedId,
                levels: props.levels,
                palette,
                atlas: symbols.image,
                icons: symbols.plan.icons,
                sizePixels: size,
                beforeId: namesLayer,
              }),
            ]
          : []),
        ...(props.notes.length > 0
          ? noteLayers({ marks: props.notes, palette, sizePixels: size, beforeId: namesLayer })
          : []),
        ...(props.planned ? plannedLayers(props.planned, palette) : []),
        ...lineLayers(props, draft),
        ...(props.ownPosition
          ? ownPositionLayers({ mark: props.ownPosition, palette, beforeId: namesLayer })
          : []),
      ]
    },
    needsSize: (zoom, scale) => symbolSizePixels(zoom, scale) !== size,
    forget() {
      symbolSheet = undefined
      coverageSheet = undefined
    },
  }

  function sheetOf(known: Drawn | undefined, key: unknown, plan: () => AtlasPlan, theme?: unknown): Drawn {
    const fullKey = theme === undefined ? key : [key, theme]
    if (known && sameKey(known.key, fullKey)) return known
    const planned = plan()
    const drawn: Drawn = { key: fullKey, plan: planned, image: null }
    void drawAtlas(planned).then((image) => {
      drawn.image = image
      ready()
    })
    return drawn
  }
}

function lineLayers(props: PlanMapProps, draft: readonly LngLat[]): Layer[] {
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
  })
}

function sameKey(left: unknown, right: unknown): boolean {
  if (Array.isArray(left) && Array.isArray(right)) return left.every((part, place) => part === right[place])
  return left === right
}
