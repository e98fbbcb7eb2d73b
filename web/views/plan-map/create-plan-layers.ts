import type { Layer } from '@deck.gl/core'
import type { LngLat } from '#domain/geometry/site-grid.ts'
import { chainageLayers } from './chainage-layers.ts'
import { createContourValues } from './create-contour-values.ts'
import { type IconSheet, sheetOf } from './icon-sheet.ts'
import { alertLayers } from './layers/alert-layers.ts'
import { arrowLayers } from './layers/arrow-layers.ts'
import { coverageAtlasSvg, coverageLayers } from './layers/coverage-layers.ts'
import { deliveryLayers } from './layers/delivery-layers.ts'
import { neighbourGroundLayers, neighbourPlateLayers } from './layers/neighbour-layers.ts'
import { noteLayers } from './layers/note-layers.ts'
import { ownPositionLayers } from './layers/own-position-layers.ts'
import { patchLayers, pickedLayers } from './layers/patch-layers.ts'
import { plannedLayers } from './layers/planned-layers.ts'
import { radioLayers } from './layers/radio-layers.ts'
import { surfaceLayers } from './layers/surface-layers.ts'
import { surfaceValueLayers } from './layers/surface-value-layers.ts'
import { symbolLayers } from './layers/symbol-layers.ts'
import { metresPerPixelAt } from './metres-per-pixel.ts'
import type { PlanMapProps } from './plan-map-props.ts'
import { namesLayer } from './plan-sources.ts'
import { planAtlas } from './symbol-atlas.ts'
import { symbolSizePixels } from './symbol-size.ts'

export interface PlanLayers {
  /** Every layer above the works, in the order drawn. */
  list(props: PlanMapProps, draft: readonly LngLat[], zoom: number): Layer[]
  /** True when symbols would be drawn in another size than they are. */
  needsSize(zoom: number, scale: number): boolean
  /** Drops the icon sheets: another theme, or a lost context. */
  forget(): void
}

/** Layers of the plan from its props. Icon sheets are drawn aside; `ready` is called when one has come. */
export function createPlanLayers(ready: () => void): PlanLayers {
  let symbolSheet: IconSheet | undefined
  let coverageSheet: IconSheet | undefined
  let size = 0
  const valuesOf = createContourValues()
  return {
    list(props, draft, zoom) {
      size = symbolSizePixels(zoom, props.scale)
      const symbols = sheetOf(ready, symbolSheet, `${props.levels}${props.palette.paper}`, () =>
        planAtlas(props.palette, props.levels),
      )
      symbolSheet = symbols
      const coverage =
        props.coverage.length === 0
          ? undefined
          : sheetOf(
              ready,
              coverageSheet,
              props.coverage,
              () => coverageAtlasSvg(props.coverage, props.palette),
              props.palette,
            )
      coverageSheet = coverage
      const { palette } = props
      const around = props.neighbours && {
        drawing: props.neighbours,
        palette,
        sizePixels: size,
        scale: props.scale,
        metresPerPixel: metresPerPixelAt(props.symbols[0]?.latitude ?? 0, zoom),
        beforeId: namesLayer,
      }
      return [
        ...(props.surface
          ? surfaceLayers({ id: 'surface', surface: props.surface, palette, beforeId: namesLayer })
          : []),
        ...(props.delivery
          ? deliveryLayers({ delivery: props.delivery, palette, beforeId: namesLayer })
          : []),
        ...(around ? neighbourGroundLayers(around) : []),
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
                leastTextPixels: props.leastTextPixels,
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
                leastTextPixels: props.leastTextPixels,
                beforeId: namesLayer,
              }),
              ...alertLayers({
                marks: props.alerts,
                selectedId: props.selectedId,
                atlas: symbols.image,
                icons: symbols.plan.icons,
                palette,
                sizePixels: size,
                leastTextPixels: props.leastTextPixels,
                metresPerPixel: metresPerPixelAt(props.symbols[0]?.latitude ?? 0, zoom),
              }),
            ]
          : []),
        ...(around ? neighbourPlateLayers(around) : []),
        ...(props.notes.length > 0
          ? noteLayers({ marks: props.notes, palette, sizePixels: size, beforeId: namesLayer })
          : []),
        ...(props.planned ? plannedLayers(props.planned, palette) : []),
        ...(props.surface
          ? arrowLayers({ id: 'surface', arrows: props.surface.arrows, palette, beforeId: namesLayer })
          : []),
        ...(props.surface
          ? surfaceValueLayers({
              id: 'surface',
              surface: props.surface,
              values: valuesOf(props.surface, props, zoom, size),
              palette,
              scale: props.scale,
              leastTextPixels: props.leastTextPixels,
              sizePixels: size,
            })
          : []),
        ...patchLayers(props.area, palette),
        ...(props.picked
          ? pickedLayers({
              picked: props.picked,
              symbols: props.symbols,
              palette,
              sizePixels: size,
              scale: props.scale,
            })
          : []),
        ...chainageLayers(props, draft),
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
}
