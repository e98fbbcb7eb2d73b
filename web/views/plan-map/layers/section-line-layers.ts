import type { Layer } from '@deck.gl/core'
import { PathLayer, ScatterplotLayer, TextLayer } from '@deck.gl/layers'
import type { LngLat } from '#domain/geometry/site-grid.ts'
import { type Palette, toRgba } from '../../../ui/palettes.ts'

export interface SectionMark {
  readonly at: LngLat
  readonly chainageMetres: number
}

export interface SectionLineProps {
  readonly corners: readonly LngLat[]
  /** Points at round chainages along it. */
  readonly marks: readonly SectionMark[]
  readonly palette: Palette
  readonly drawing: boolean
  readonly leastTextPixels: number
}

/** The section line with chainage from its first corner: A is where chainage begins. */
export function sectionLineLayers(props: SectionLineProps): Layer[] {
  const { corners, palette } = props
  if (corners.length === 0) return []
  // Above the names too: a line being drawn must be seen whole.
  const drawn = { parameters: { depthCompare: 'always' as const } }
  const path = corners.map((corner): [number, number] => [corner[0], corner[1]])
  const ends = [corners[0], corners[corners.length - 1]].flatMap((corner, place) =>
    corner ? [{ corner, name: place === 0 ? 'A' : 'B' }] : [],
  )
  return [
    new PathLayer<[number, number][]>({
      ...drawn,
      id: 'section-halo',
      data: path.length > 1 ? [path] : [],
      getPath: (line) => line,
      getWidth: 6,
      widthUnits: 'pixels',
      getColor: toRgba(palette.halo, 220),
    }),
    new PathLayer<[number, number][]>({
      ...drawn,
      id: 'section-line',
      data: path.length > 1 ? [path] : [],
      getPath: (line) => line,
      getWidth: props.drawing ? 2 : 3,
      widthUnits: 'pixels',
      getColor: toRgba(palette.accent),
    }),
    new ScatterplotLayer<SectionMark>({
      ...drawn,
      id: 'section-marks',
      data: props.marks,
      getPosition: (mark) => [mark.at[0], mark.at[1]],
      getRadius: 4,
      radiusUnits: 'pixels',
      getFillColor: toRgba(palette.sheet),
      stroked: true,
      getLineColor: toRgba(palette.accent),
      lineWidthUnits: 'pixels',
      getLineWidth: 2,
    }),
    new TextLayer<SectionMark>({
      ...drawn,
      id: 'section-chainage',
      data: props.marks.slice(1),
      getPosition: (mark) => [mark.at[0], mark.at[1]],
      getText: (mark) => `${mark.chainageMetres} m`,
      getSize: Math.max(12, props.leastTextPixels),
      getColor: toRgba(palette.accent),
      getPixelOffset: [0, -Math.max(14, props.leastTextPixels)],
      background: true,
      getBackgroundColor: toRgba(palette.sheet, 225),
      backgroundPadding: [3, 1],
      fontFamily: 'system-ui, sans-serif',
      characterSet: 'auto',
    }),
    new ScatterplotLayer<(typeof ends)[number]>({
      ...drawn,
      id: 'section-ends',
      data: ends,
      getPosition: (end) => [end.corner[0], end.corner[1]],
      getRadius: Math.max(12, props.leastTextPixels * 0.75),
      radiusUnits: 'pixels',
      getFillColor: toRgba(palette.accent),
    }),
    new TextLayer<(typeof ends)[number]>({
      ...drawn,
      id: 'section-end-names',
      data: ends,
      getPosition: (end) => [end.corner[0], end.corner[1]],
      getText: (end) => end.name,
      getSize: Math.max(15, props.leastTextPixels),
      fontWeight: 700,
      getColor: toRgba(palette.onAccent),
      fontFamily: 'system-ui, sans-serif',
    }),
  ]
}
