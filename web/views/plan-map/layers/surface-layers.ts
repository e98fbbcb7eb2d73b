import type { Layer } from '@deck.gl/core'
import { PathLayer, PolygonLayer } from '@deck.gl/layers'
import { type Palette, toRgba } from '../../../ui/palettes.ts'
import { pathLayers } from './path-layers.ts'
import { bandColour, surfaceColour } from './surface-colour.ts'

type Position = [longitude: number, latitude: number]

/** A surface as it is drawn: bands and lines that already stop at the hull, at stale points and at barriers. */
export interface SurfaceDrawing {
  readonly bands: readonly { readonly middle: number; readonly rings: readonly (readonly Position[])[] }[]
  readonly lines: readonly {
    readonly value: number
    readonly path: readonly Position[]
    /** False: drawn in dashes, it may as well run elsewhere. */
    readonly certain: boolean
  }[]
  /** Outline of the part of the plan for which the surface is given. */
  readonly outline: readonly (readonly Position[])[]
  /** Strokes over what is not known. */
  readonly hatches: readonly (readonly Position[])[]
  readonly arrows: readonly DrawnArrow[]
  /** Figures at places, such as a difference, with a ring around each. */
  readonly marks: readonly SurfaceMark[]
  /** Least and most of the values shown; the colour is fullest at the farther from nought, or at the lowest level. */
  readonly lowest: number
  readonly highest: number
  /** Movement: one colour a sign, from nought. Level: one colour, from the highest down. Slope: ink, from nought. */
  readonly colouring: 'movement' | 'level' | 'slope'
  /** What its signs mean. */
  readonly key: readonly SurfaceKeyRow[]
  /** Sentence on method, unit, points used and points left out. */
  readonly note: string
}

export interface DrawnArrow {
  /** `unknown` has an open head; `none` is a ring. */
  readonly standing: 'told' | 'none' | 'unknown'
  readonly shaft: readonly Position[]
  /** Closed. */
  readonly head: readonly Position[]
}

export interface SurfaceMark {
  readonly at: Position
  readonly text: string
  /** The figure is not told from nought. */
  readonly faint: boolean
}

export interface SurfaceKeyRow {
  readonly sign: 'band' | 'dashes' | 'hatch' | 'arrow' | 'open-arrow' | 'ring' | 'mark'
  /** Of a band. */
  readonly middle: number | null
  readonly says: string
}

/** Bands, lines and hatches; arrows and values are drawn above the symbols (`arrowLayers`, `surfaceValueLayers`). */
export function surfaceLayers(props: {
  readonly id: string
  readonly surface: SurfaceDrawing
  readonly palette: Palette
  readonly beforeId: string
}): Layer[] {
  const { surface, palette } = props
  const drawn = { beforeId: props.beforeId, parameters: { depthCompare: 'always' as const } }
  const { lowest, highest, colouring } = surface
  const paths = surface.lines.flatMap((line) =>
    line.certain ? [line] : dashes(line.path).map((path) => ({ ...line, path })),
  )
  const path = pathLayers(props.id, drawn)
  return [
    new PolygonLayer<SurfaceDrawing['bands'][number]>({
      ...drawn,
      id: `${props.id}-bands`,
      data: surface.bands,
      getPolygon: (band) => band.rings as Position[][],
      getFillColor: (band) => bandColour(surface, band.middle, palette),
      stroked: false,
      updateTriggers: { getFillColor: [palette, lowest, highest, colouring] },
    }),
    path('hatches', surface.hatches, palette.inkSoft, 1),
    path('outline', surface.outline, palette.inkSoft, 1),
    new PathLayer<SurfaceDrawing['lines'][number]>({
      ...drawn,
      id: `${props.id}-lines`,
      data: paths,
      getPath: (line) => line.path as Position[],
      getColor: (line) => toRgba(surfaceColour(surface, line.value, palette)),
      getWidth: (line) => (line.value === 0 && colouring === 'movement' ? 2.4 : 1.4),
      widthUnits: 'pixels',
      updateTriggers: { getColor: [palette, colouring] },
    }),
  ]
}

/** A path in dashes: every second piece of it, each as long as a few of its own corners. */
function dashes(path: readonly Position[]): readonly (readonly Position[])[] {
  const long = 3
  const pieces: (readonly Position[])[] = []
  for (let at = 0; at + 1 < path.length; at += 2 * long) pieces.push(path.slice(at, at + long + 1))
  return pieces
}
