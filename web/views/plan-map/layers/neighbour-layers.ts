import type { Layer } from '@deck.gl/core'
import { PathLayer, ScatterplotLayer, TextLayer } from '@deck.gl/layers'
import {
  type NeighbourDrawing,
  type NeighbourPlate,
  type ResidualMark,
  residualRadiusPixels,
  roomyPlates,
} from '../../../derived/review/neighbour-drawing.ts'
import { neighbourSigns } from '../../../derived/review/neighbour-words.ts'
import { type Palette, toRgba } from '../../../ui/palettes.ts'

type Position = [number, number]

interface NeighbourLayerProps {
  readonly drawing: NeighbourDrawing
  readonly palette: Palette
  readonly sizePixels: number
  readonly scale: number
  readonly metresPerPixel: number
  readonly beforeId: string
}

/**
 * Beneath the symbols: around every point of the surface a ring for its residual, filled where it reads more than the others say, open
 * where less, and a line to each neighbour, whole, dashed or dotted by how it agrees.
 */
export function neighbourGroundLayers({
  drawing,
  palette,
  sizePixels,
  beforeId,
}: NeighbourLayerProps): Layer[] {
  const drawn = { beforeId, parameters: { depthCompare: 'always' as const } }
  const ring = (name: string, data: readonly ResidualMark[], filled: boolean) =>
    new ScatterplotLayer<ResidualMark>({
      ...drawn,
      id: `neighbour-residuals-${name}`,
      data,
      getPosition: ({ at }) => at,
      getRadius: ({ standardised }) => residualRadiusPixels(standardised, sizePixels),
      radiusUnits: 'pixels',
      filled,
      getFillColor: toRgba(palette.settled, 120),
      stroked: true,
      getLineColor: toRgba(filled ? palette.settled : palette.heaved),
      lineWidthUnits: 'pixels',
      getLineWidth: ({ standardised }) => (Math.abs(standardised) >= 2 ? 3.5 : 1.5),
      updateTriggers: { getRadius: sizePixels, getFillColor: palette, getLineColor: palette },
    })
  const path = (name: string, colour: string, width: number) =>
    new PathLayer<NeighbourDrawing['lines'][number]>({
      ...drawn,
      id: `neighbour-lines-${name}`,
      data: drawing.lines,
      getPath: (line) => line.path as Position[],
      getColor: toRgba(colour, name === 'halo' ? 210 : 255),
      getWidth: ({ kind }) => (neighbourSigns[kind].line === 'stub' ? width - 1 : width),
      widthUnits: 'pixels',
      updateTriggers: { getColor: palette },
    })
  return [
    ring(
      'less',
      drawing.residuals.filter(({ standardised }) => standardised < 0),
      false,
    ),
    ring(
      'more',
      drawing.residuals.filter(({ standardised }) => standardised >= 0),
      true,
    ),
    path('halo', palette.halo, 6),
    path('ink', palette.ink, 3),
  ]
}

/** Above the symbols: a plate with shape and change beside each neighbour, and residuals of two standard errors and more as figures. */
export function neighbourPlateLayers({
  drawing,
  palette,
  sizePixels,
  scale,
  metresPerPixel,
}: NeighbourLayerProps): Layer[] {
  const text = {
    parameters: { depthCompare: 'always' as const },
    fontWeight: 700,
    fontFamily: 'system-ui, sans-serif',
    characterSet: 'auto' as const,
    background: true,
  }
  return [
    new TextLayer<ResidualMark>({
      ...text,
      id: 'neighbour-residual-figures',
      data: drawing.residuals.filter((one) => one.text !== ''),
      getPosition: ({ at }) => at,
      getText: (one) => one.text,
      getSize: 12 * scale,
      getColor: toRgba(palette.ink),
      getTextAnchor: 'end',
      getPixelOffset: [-sizePixels * 0.62, sizePixels * 0.5],
      getBackgroundColor: toRgba(palette.halo, 235),
      backgroundPadding: [3, 0],
      updateTriggers: { getPixelOffset: sizePixels, getSize: scale },
    }),
    new TextLayer<NeighbourPlate>({
      ...text,
      id: 'neighbour-plates',
      data: roomyPlates(drawing.plates, metresPerPixel / scale),
      getPosition: ({ at }) => at,
      getText: (plate) => plate.text,
      getSize: 14 * scale,
      getTextAnchor: 'start',
      getPixelOffset: [sizePixels * 0.55, -sizePixels * 0.5],
      // What moves otherwise is what one looks for: the other way round in ink as well as in shape.
      getColor: ({ kind }) => toRgba(kind === 'moves-otherwise' ? palette.sheet : palette.ink),
      getBackgroundColor: ({ kind }) => toRgba(kind === 'moves-otherwise' ? palette.ink : palette.sheet),
      backgroundPadding: [5, 1],
      getBorderColor: toRgba(palette.ink),
      getBorderWidth: 1.5,
      updateTriggers: {
        getPixelOffset: sizePixels,
        getColor: palette,
        getBackgroundColor: palette,
        getSize: scale,
      },
    }),
  ]
}
