import type { Layer } from '@deck.gl/core'
import { PathLayer, PolygonLayer, TextLayer } from '@deck.gl/layers'
import { type Palette, toRgba } from '../../../ui/palettes.ts'

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
  /** Least and most of the values shown; the colour is fullest at the farther from nought, or at the lowest level. */
  readonly lowest: number
  readonly highest: number
  /** Movement: one colour a sign, from nought. Level: one colour, from the highest down. */
  readonly colouring: 'movement' | 'level'
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
  const { lowest, highest } = surface
  const isLevel = surface.colouring === 'level'
  const colourOf = (value: number) =>
    isLevel ? palette.waterLine : value >= 0 ? palette.settled : palette.heaved
  const fullAt = Math.max(1e-9, Math.abs(lowest), Math.abs(highest))
  const shareOf = (value: number) =>
    isLevel ? (highest - value) / Math.max(1e-9, highest - lowest) : Math.abs(value) / fullAt
  // Straight pieces have few corners; then even short ones are named.
  const leastCorners = Math.min(8, Math.max(2, ...surface.lines.map(({ path }) => path.length)))
  const labels = labelled(surface.lines).flatMap((line) => labelOf(line, leastCorners) ?? [])
  const paths = surface.lines.flatMap((line) =>
    line.certain ? [line] : dashes(line.path).map((path) => ({ ...line, path })),
  )
  return [
    new PolygonLayer<SurfaceDrawing['bands'][number]>({
      ...drawn,
      id: `${props.id}-bands`,
      data: surface.bands,
      getPolygon: (band) => band.rings as Position[][],
      getFillColor: (band) => toRgba(colourOf(band.middle), 30 + 150 * Math.min(1, shareOf(band.middle))),
      stroked: false,
      updateTriggers: { getFillColor: [palette, lowest, highest] },
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
      data: paths,
      getPath: (line) => line.path as Position[],
      getColor: (line) => toRgba(colourOf(line.value)),
      getWidth: (line) => (line.value === 0 && !isLevel ? 2.4 : 1.4),
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

/** The longest pieces of each level: more values than these would hide the lines. */
function labelled(lines: SurfaceDrawing['lines']): SurfaceDrawing['lines'] {
  const most = 6
  const taken = new Map<number, number>()
  return lines
    .toSorted((one, other) => other.path.length - one.path.length)
    .filter(({ value }) => {
      const before = taken.get(value) ?? 0
      taken.set(value, before + 1)
      return before < most
    })
}

/** The value stands at the middle of its line; stubs of a few corners carry none. */
function labelOf(line: SurfaceDrawing['lines'][number], leastCorners: number) {
  if (line.path.length < leastCorners) return null
  const at = line.path[Math.floor(line.path.length / 2)]
  return at ? { at, value: line.value } : null
}

/** A path in dashes: every second piece of it, each as long as a few of its own corners. */
function dashes(path: readonly Position[]): readonly (readonly Position[])[] {
  const long = 3
  const pieces: (readonly Position[])[] = []
  for (let at = 0; at + 1 < path.length; at += 2 * long) pieces.push(path.slice(at, at + long + 1))
  return pieces
}
