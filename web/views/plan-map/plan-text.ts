import type { ExpressionSpecification } from 'maplibre-gl'

/** Fonts of the machine: nothing is fetched. */
export const localFont = ['system-ui', 'sans-serif']

/** Sizes of a text at two zooms, before the scale. */
export type TextSizes = (
  fromZoom: number,
  fromPixels: number,
  untilZoom: number,
  untilPixels: number,
) => ExpressionSpecification
