import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl'
import type { Palette } from '../../ui/palettes.ts'
import { levelNamesLayer, namesLayer, namesSource, roomImage } from './plan-sources.ts'
import { localFont, type TextSizes } from './plan-text.ts'
import { symbolGrowth } from './symbol-size.ts'

/**
 * Names of measuring points and the room that their symbols keep free, from below upwards. The map places the uppermost
 * layer first: symbols at a level, their names, all other symbols, their names. So the name of one at a level may lie
 * over a symbol that is within levels, and is never left out for it; a symbol at a level is covered by no name.
 */
export function pointNameLayers(palette: Palette, sizes: TextSizes, scale: number): LayerSpecification[] {
  const atLevel: ExpressionSpecification = ['>', ['get', 'level'], 0]
  const others: ExpressionSpecification = ['<=', ['get', 'level'], 0]
  return [
    nameLayer(namesLayer, others, palette, sizes),
    roomLayer('symbol-room', others, scale),
    farNames(nameLayer(levelNamesLayer, atLevel, palette, sizes)),
    roomLayer('symbol-room-at-level', atLevel, scale),
  ]
}

/** Nothing to see: keeps names from being put where symbols are drawn. */
function roomLayer(id: string, filter: ExpressionSpecification, scale: number): LayerSpecification {
  const { fromZoom, fromPixels, untilZoom, untilPixels } = symbolGrowth
  return {
    id,
    type: 'symbol',
    source: namesSource,
    filter,
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
function nameLayer(
  id: string,
  filter: ExpressionSpecification,
  palette: Palette,
  sizes: TextSizes,
): LayerSpecification {
  return {
    id,
    type: 'symbol',
    source: namesSource,
    filter,
    layout: {
      'text-field': ['get', 'text'],
      'text-font': localFont,
      'text-size': sizes(16.5, 11, 19, 14),
      'text-variable-anchor': [
        'top',
        'bottom',
        'right',
        'left',
        'top-left',
        'top-right',
        'bottom-left',
        'bottom-right',
      ],
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

/** Where points crowd, a name may stand a little farther off, over symbols within levels, with a wider halo to be read on them. */
function farNames(layer: LayerSpecification): LayerSpecification {
  return {
    ...layer,
    layout: {
      ...layer.layout,
      'text-variable-anchor-offset': [1.4, 2.4, 3.6].flatMap((ems) => anchorsAt(ems)),
    },
    paint: { ...layer.paint, 'text-halo-width': 3 },
  } as LayerSpecification
}

/** Anchors of a text so many ems from its point, with the way that each is moved. */
function anchorsAt(ems: number): (string | [number, number])[] {
  const slant = ems / Math.SQRT2
  return [
    ...['top', [0, ems], 'bottom', [0, -ems], 'left', [ems, 0], 'right', [-ems, 0]],
    ...['top-left', [slant, slant], 'top-right', [-slant, slant]],
    ...['bottom-left', [slant, -slant], 'bottom-right', [-slant, -slant]],
  ] as (string | [number, number])[]
}
