import type { FilterSpecification, LayerSpecification } from 'maplibre-gl'
import type { Palette } from '../../ui/palettes.ts'
import { wellsSource } from './plan-sources.ts'
import { localFont, type TextSizes } from './plan-text.ts'

/** Pumped wells: a ring about a dot while water is taken out or put in, an empty ring while not. */
export function wellLayers(palette: Palette, scale: number, sizes: TextSizes): LayerSpecification[] {
  const circle = (id: string, radiusPixels: number, fill: string, filter?: FilterSpecification) =>
    ({
      id,
      type: 'circle',
      source: wellsSource,
      ...(filter && { filter }),
      paint: {
        'circle-radius': radiusPixels * scale,
        'circle-color': fill,
        'circle-stroke-color': palette.ink,
        'circle-stroke-width': 1.6,
      },
    }) as LayerSpecification
  return [
    // Wide enough to stand out around an instrument at the same place.
    circle('works-well', 15, palette.sheet),
    circle('works-well-pumped', 3, palette.ink, ['==', ['get', 'pumped'], true]),
    {
      id: 'worksname-well',
      type: 'symbol',
      source: wellsSource,
      layout: {
        'text-field': ['get', 'text'],
        'text-font': localFont,
        'text-size': sizes(16, 11, 19, 14),
        'text-variable-anchor': ['top', 'bottom', 'right', 'left'],
        'text-radial-offset': 1.5,
        'text-allow-overlap': true,
        'text-ignore-placement': true,
      },
      paint: {
        'text-color': palette.planLabel,
        'text-halo-color': palette.halo,
        'text-halo-width': 1.6,
      },
    },
  ]
}
