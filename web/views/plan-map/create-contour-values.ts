import { type ContourValue, contourValues } from './layers/contour-values.ts'
import type { SurfaceDrawing } from './layers/surface-layers.ts'
import { metresPerPixelAt } from './metres-per-pixel.ts'
import type { PlanMapProps } from './plan-map-props.ts'
import { sameKey } from './same-key.ts'

/** Places for the values of contours, clear of symbols, names and arrows. Worked out anew only when something moved: symbols come anew with every step of the clock. */
export function createContourValues() {
  let valued: { readonly key: readonly unknown[]; readonly values: readonly ContourValue[] } | undefined
  return (
    surface: SurfaceDrawing,
    { symbols, showNames }: Pick<PlanMapProps, 'symbols' | 'showNames'>,
    zoom: number,
    /** Of a symbol, CSS pixels. */
    size: number,
  ): readonly ContourValue[] => {
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
}
