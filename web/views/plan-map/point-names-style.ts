import type { LayerSpecification } from 'maplibre-gl'
import type { Palette } from '../../ui/palettes.ts'
import { namesLayer, namesSource, roomImage } from './plan-sources.ts'
import { localFont, type TextSizes } from './plan-text.ts'
import { symbolGrowth } from './symbol-size.ts'

/** Nothing to see: keeps names from being put where symbols are drawn. */
export function roomLayer(scale: number): LayerSpecification {
  const { fromZoom, fromPixels, untilZoom, untilPixels } = symbolGrowth
  return {
    id: 'symbol-room',
    type: 'symbol',
    source: namesSource,
    layout: {
      'icon-image': roomImage,
      'icon-size': [
        'interpolate',
        ['linear'],
        ['zoom'],
        fromZoom,
        fromPixels * 0.66 * scale,
        untilZoom,
        untilPixels * 0.66 * scale,
      ],
      'icon-allow-overlap': true,
    },
  }
}

/** Names of measuring points, beside their symbols. */
export function nameLayer(palette: Palette, sizes: TextSizes): LayerSpecification {
  return {
    id: namesLayer,
    type: 'symbol',
    source: namesSource,
    layout: {
      'text-field': ['get', 'text'],
      'text-font': localFont,
      'text-size': sizes(16.5, 11, 19, 14),
      'text-variable-anchor': ['top', 'bottom', 'right', 'left'],
      'text-radial-offset': ['interpolate', ['linear'], ['zoom'], 16, 1.3, 19, 1.7],
      'text-justify': 'auto',
      'text-padding': 1,
      'symbol-sort-key': ['get', 'order'],
    },
    paint: {
      'text-color': palette.ink,
      'text-halo-color': palette.halo,
      'text-halo-width': 1.6,
    },
  }
}
