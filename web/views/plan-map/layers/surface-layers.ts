import type { Layer } from '@deck.gl/core'
import { PathLayer, PolygonLayer, TextLayer } from '@deck.gl/layers'
import { type Palette, toRgba } from '../../../ui/palettes.ts'

type Position = [longitude: number, latitude: number]

/** A surface as it is drawn: bands and lines that already stop at the hull, at stale points and at barriers. */
export interface SurfaceDrawing {
  readonly bands: readonly { readonly middle: number; readonly rings: readonly (readonly Position[])[] }[]
  readonly lines: readonly { readonly value: number; readonly path: readonly Position[] }[]
  /** Outline of the part of the plan for which the surface is given. */
  readonly outline: readonly (readonly Position[])[]
  /** Value at which a band is drawn with its full colour; above nought. */
  readonly fullAt: number
  /** Sentence on method, unit, points used and points left out. */
  readonly note: string
}

/** Bands, lines and their values: settlement in one colour, heave in another, deeper where it is more. */
export function surfaceLayers(props: {
  readonly id: string
  readonly surface: SurfaceDrawing
  readonly palette: Palette
  readonly beforeId: string
}): Layer[] {
  const { surface, palette } = props
  const drawn = { beforeId: props.beforeId, parameters: { depthCompare: 'always' as const } }
  const colourOf = (value: number) => (value >= 0 ? palette.settled : palette.heaved)
  const labels = surface.lines.flatMap((line) => labelOf(line) ?? [])
  return [
    new PolygonLayer<SurfaceDrawing['bands'][number]>({
      ...drawn,
      id: `${props.id}-bands`,
      data: surface.bands,
      getPolygon: (band) => band.rings as Position[][],
      getFillColor: (band) =>
        toRgba(colourOf(band.middle), 30 + 150 * Math.min(1, Math.abs(band.middle) / surface.fullAt)),
      stroked: false,
      updateTriggers: { getFillColor: [palette, surface.fullAt] },
    }),
    new PathLayer<readonly Position[]>({
      ...drawn,
      id: `${props.id}-outline`,
      data: surface.outline,
      getPath: (path) => path as Position[],
      getColor: toRgba(palette.inkSoft, 160),
      getWidth: 1,
      widthUnits: 'pixels',
    }),
    new PathLayer<SurfaceDrawing['lines'][number]>({
      ...drawn,
      id: `${props.id}-lines`,
      data: surface.lines,
      getPath: (line) => line.path as Position[],
      getColor: (line) => toRgba(colourOf(line.value)),
      getWidth: (line) => (line.value === 0 ? 2.4 : 1.4),
      widthUnits: 'pixels',
      updateTriggers: { getColor: palette },
    }),
    new TextLayer<{ readonly at: Position; readonly value: number }>({
      ...drawn,
      id: `${props.id}-values`,
      data: labels,
      getPosition: (label) => label.at,
      getText: (label) => String(label.value).replace('-', '−'),
      getSize: 13,
      fontWeight: 600,
      getColor: (label) => toRgba(colourOf(label.value)),
      background: true,
      getBackgroundColor: toRgba(palette.halo, 225),
      backgroundPadding: [3, 0],
      fontFamily: 'system-ui, sans-serif',
      characterSet: '−0123456789.',
      updateTriggers: { getColor: palette },
    }),
  ]
}

/** The value stands at the middle of its line; stubs of a few corners carry none. */
function labelOf(line: SurfaceDrawing['lines'][number]) {
  if (line.path.length < 8) return null
  const at = line.path[Math.floor(line.path.length / 2)]
  return at ? { at, value: line.value } : null
}
