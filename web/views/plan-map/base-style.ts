import type {
  ExpressionSpecification,
  FilterSpecification,
  LayerSpecification,
  StyleSpecification,
} from 'maplibre-gl'
import type { Palette } from '../../ui/palettes.ts'
import { symbolGrowth } from './symbol-size.ts'
import type { PhasedWorks } from './works-phases.ts'

/** Our layers go below this one, so that names of measuring points stay readable above them. */
export const namesLayer = 'point-names'
export const worksSource = 'works'
export const namesSource = 'names'
export const wellsSource = 'wells'

/** Image without colour that `roomLayer` needs; one pixel. */
export const roomImage = 'room'

const localFont = ['system-ui', 'sans-serif']

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
      nameLayer(palette, sizes),
      roomLayer(scale),
    ],
  }
}

/** Sizes of a text at two zooms, before the scale. */
type TextSizes = (
  fromZoom: number,
  fromPixels: number,
  untilZoom: number,
  untilPixels: number,
) => ExpressionSpecification

/** Ids of layers that show works, and of those that name them. */
export const isWorksLayer = (id: string): boolean => id.startsWith('works-')
export const isWorksNameLayer = (id: string): boolean => id.startsWith('worksname-')

function worksLayers(palette: Palette, latitude: number, sizes: TextSizes): LayerSpecification[] {
  const area = (id: string, kinds: string[], colour: string, opacity: number, phase?: string) =>
    layer(id, 'fill', filterFor(kinds, 'Polygon', phase), {
      'fill-color': colour,
      'fill-opacity': opacity,
    })
  const edge = (
    id: string,
    kinds: string[],
    colour: string,
    width: number,
    dashes?: number[],
    phase?: string,
  ) =>
    layer(id, 'line', filterFor(kinds, null, phase), {
      'line-color': colour,
      'line-width': width,
      ...(dashes && { 'line-dasharray': dashes }),
    })
  return [
    area('works-water', ['dock', 'shore'], palette.water, 1),
    edge('works-water-edge', ['dock', 'shore'], palette.waterLine, 1.6),
    area('works-site', ['boundary'], palette.made, 1),
    edge('works-site-edge', ['boundary'], palette.buildingLine, 1.2, [8, 3, 1.5, 3]),
    area('works-excavation', ['excavation'], palette.excavation, 1, 'there'),
    edge('works-excavation-edge', ['excavation'], palette.buildingLine, 1.2, undefined, 'there'),
    edge('works-excavation-to-come', ['excavation'], palette.inkSoft, 1, [4, 4], 'to-come'),
    layer('works-tunnel-bore', 'line', filterFor(['tunnel'], 'LineString', 'there'), {
      'line-color': palette.tunnel,
      'line-opacity': 0.3,
      'line-width': widthOnGround(3.4, latitude, 6),
    }),
    area('works-tunnel-area', ['tunnel'], palette.tunnel, 0.3, 'there'),
    edge('works-tunnel-axis', ['tunnel'], palette.tunnel, 1.4, [7, 2, 1, 2]),
    area('works-building', ['building'], palette.building, 1),
    edge('works-building-edge', ['building'], palette.buildingLine, 1.2),
    edge('works-service', ['service'], palette.service, 1.4, [3, 2]),
    area('works-obstruction', ['obstruction'], palette.buildingLine, 0.6, 'there'),
    layer('works-wall', 'line', filterFor(['wall'], 'LineString', 'there'), {
      'line-color': palette.wall,
      'line-width': widthOnGround(1, latitude, 3),
    }),
    area('works-wall-area', ['wall'], palette.wall, 1, 'there'),
    edge('works-wall-to-come', ['wall'], palette.wall, 1.2, [3, 3], 'to-come'),
    workNames(palette, 'area', sizes),
    workNames(palette, 'line', sizes),
  ]
}

/** Pumped wells: a ring about a dot while water is taken out or put in, an empty ring while not. */
function wellLayers(palette: Palette, scale: number, sizes: TextSizes): LayerSpecification[] {
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

function workNames(palette: Palette, of: 'area' | 'line', sizes: TextSizes): LayerSpecification {
  return {
    id: `worksname-${of}`,
    type: 'symbol',
    source: worksSource,
    filter: [
      'all',
      ['==', ['geometry-type'], of === 'area' ? 'Polygon' : 'LineString'],
      // Walls and the boundary are known from their drawing; named only from close by.
      ['any', ['!', ['in', ['get', 'kind'], ['literal', ['wall', 'boundary']]]], ['>=', ['zoom'], 18.6]],
      ['any', ['!=', ['get', 'kind'], 'excavation'], ['==', ['get', 'phase'], 'there']],
    ],
    layout: {
      'text-field': ['get', 'name'],
      'text-font': localFont,
      'text-size': sizes(16, 11, 19, 15),
      'text-max-width': 9,
      'text-letter-spacing': 0.06,
      ...(of === 'line' && { 'symbol-placement': 'line-center' as const }),
    },
    paint: {
      'text-color': palette.planLabel,
      'text-halo-color': palette.halo,
      'text-halo-width': 1.4,
    },
  }
}

/** Nothing to see: keeps names from being put where symbols are drawn. */
function roomLayer(scale: number): LayerSpecification {
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

function nameLayer(palette: Palette, sizes: TextSizes): LayerSpecification {
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

function filterFor(kinds: string[], geometry: string | null, phase?: string): FilterSpecification {
  const parts: ExpressionSpecification[] = [['in', ['get', 'kind'], ['literal', kinds]]]
  if (geometry) parts.push(['==', ['geometry-type'], geometry])
  if (phase) parts.push(['==', ['get', 'phase'], phase])
  return ['all', ...parts] as FilterSpecification
}

/** Width of so many metres on the ground, never thinner than `leastPixels`. Web Mercator, 512-pixel tiles. */
function widthOnGround(metres: number, latitude: number, leastPixels: number): ExpressionSpecification {
  const pixelsAtZoom = (zoom: number) =>
    (metres * 512 * 2 ** zoom) / (40_075_016.686 * Math.cos((latitude * Math.PI) / 180))
  const stops: number[] = []
  for (let zoom = 12; zoom <= 24; zoom += 1) stops.push(zoom, Math.max(leastPixels, pixelsAtZoom(zoom)))
  return ['interpolate', ['exponential', 2], ['zoom'], ...stops] as ExpressionSpecification
}

function layer(
  id: string,
  type: 'fill' | 'line',
  filter: FilterSpecification,
  paint: Record<string, unknown>,
): LayerSpecification {
  return { id, type, source: worksSource, filter, paint } as LayerSpecification
}
