import type { Layer } from '@deck.gl/core'
import type { LngLat, SitePoint } from '#domain/geometry/site-grid.ts'
import { namesLayer } from './base-style.ts'
import { roundSpacing } from './grid-ticks.ts'
import { alertLayers } from './layers/alert-layers.ts'
import { arrowLayers } from './layers/arrow-layers.ts'
import { type ContourValue, contourValues } from './layers/contour-values.ts'
import { coverageAtlasSvg, coverageLayers } from './layers/coverage-layers.ts'
import { deliveryLayers } from './layers/delivery-layers.ts'
import { neighbourGroundLayers, neighbourPlateLayers } from './layers/neighbour-layers.ts'
import { noteLayers } from './layers/note-layers.ts'
import { ownPositionLayers } from './layers/own-position-layers.ts'
import { patchLayers, pickedLayers } from './layers/patch-layers.ts'
import { plannedLayers } from './layers/planned-layers.ts'
import { radioLayers } from './layers/radio-layers.ts'
import { sectionLineLayers } from './layers/section-line-layers.ts'
import { type SurfaceDrawing, surfaceLayers } from './layers/surface-layers.ts'
import { surfaceValueLayers } from './layers/surface-value-layers.ts'
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
  let valued: { readonly key: readonly unknown[]; readonly values: readonly ContourValue[] } | undefined
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
              values: valuesOf(props.surface, props, zoom),
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

  /** Worked out anew only when something moved: symbols come anew with every step of the clock. */
  function valuesOf(
    surface: SurfaceDrawing,
    { symbols, showNames }: Pick<PlanMapProps, 'symbols' | 'showNames'>,
    zoom: number,
  ): readonly ContourValue[] {
    const key = [surface, symbols, showNames, Math.round(4 * zoom), size]
    if (valued && sameKey(valued.key, key)) return valued.values
    const metresPerPixel = metresPerPixelAt(symbols[0]?.latitude ?? 0, zoom)
    const values = contourValues(surface.lines, {
      symbols: symbols
        .flatMap(({ longitude, latitude: north }): [number, number][] => [
          [longitude, north],
          // Most names stand beneath their symbol.
          ...(showNames
            ? [[longitude, north - ((size * 0.5 + 8) * metresPerPixel) / 111_320] as [number, number]]
            : []),
        ])
        .concat(
          surface.arrows.flatMap(({ shaft, head }) => [...shaft, ...head.slice(0, 1)]),
          surface.marks.map(({ at: [longitude, north] }) => [
            longitude +
              ((size * 0.5 + 18) * metresPerPixel) /
                (111_320 * Math.cos(((symbols[0]?.latitude ?? 0) * Math.PI) / 180)),
            north,
          ]),
        ),
      metresPerPixel,
      clearPixels: size * 0.5 + 6,
    })
    valued = { key, values }
    return values
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

/** At zoom 0, tiles of 512 pixels. */
const metresPerPixelAtEquator = 40_075_016.686 / 512

const metresPerPixelAt = (latitude: number, zoom: number): number =>
  (metresPerPixelAtEquator * Math.cos((latitude * Math.PI) / 180)) / 2 ** zoom

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
    leastTextPixels: props.leastTextPixels,
  })
}

function sameKey(left: unknown, right: unknown): boolean {
  if (Array.isArray(left) && Array.isArray(right)) return left.every((part, place) => part === right[place])
  return left === right
}
