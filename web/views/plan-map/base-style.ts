import type { StyleSpecification } from 'maplibre-gl'
import type { Palette } from '../../ui/palettes.ts'
import { namesSource, wellsSource, worksSource } from './plan-sources.ts'
import type { TextSizes } from './plan-text.ts'
import { pointNameLayers } from './point-names-style.ts'
import { wellLayers } from './wells-style.ts'
import type { PhasedWorks } from './works-phases.ts'
import { worksLayers } from './works-style.ts'

/** The drawing under the measuring points: no tiles, no glyph server, only the site's own works. */
export function baseStyle(
  palette: Palette,
  works: PhasedWorks,
  latitude: number,
  scale: number,
  leastTextPixels = 0,
): StyleSpecification {
  const sizes: TextSizes = (fromZoom, fromPixels, untilZoom, untilPixels) => [
    'interpolate',
    ['linear'],
    ['zoom'],
    fromZoom,
    Math.max(leastTextPixels, fromPixels * scale),
    untilZoom,
    Math.max(leastTextPixels, untilPixels * scale),
  ]
  return {
    version: 8,
    sources: {
      [worksSource]: { type: 'geojson', data: works, tolerance: 0 },
      [wellsSource]: { type: 'geojson', data: { type: 'FeatureCollection', features: [] } },
      [namesSource]: { type: 'geojson', data: { type: 'FeatureCollection', features: [] } },
    },
    layers: [
      { id: 'ground', type: 'background', paint: { 'background-color': palette.ground } },
      ...worksLayers(palette, latitude, sizes),
      ...wellLayers(palette, scale, sizes),
      ...pointNameLayers(palette, sizes, scale),
    ],
  }
}
