import type { ExpressionSpecification, FilterSpecification, LayerSpecification } from 'maplibre-gl'
import type { Palette } from '../../ui/palettes.ts'
import { worksSource } from './plan-sources.ts'
import { localFont, type TextSizes } from './plan-text.ts'

/** Whether a layer shows works or wells. */
export const isWorksLayer = (id: string): boolean => id.startsWith('works-')

/** Whether a layer names works or wells. */
export const isWorksNameLayer = (id: string): boolean => id.startsWith('worksname-')

/** The works as they stand and as they are to come, with their names. */
export function worksLayers(palette: Palette, latitude: number, sizes: TextSizes): LayerSpecification[] {
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
