import type { Layer } from '@deck.gl/core'
import { PolygonLayer } from '@deck.gl/layers'
import { type Palette, toRgba } from '../../../ui/palettes.ts'
import { pathLayers } from './path-layers.ts'
import type { DrawnArrow } from './surface-layers.ts'

type Position = [longitude: number, latitude: number]

/** Arrows of a gradient: a filled head where it is told, an open one where its error is not known, a ring where it is not told. */
export function arrowLayers(props: {
  readonly id: string
  readonly arrows: readonly DrawnArrow[]
  readonly palette: Palette
  readonly beforeId: string
}): Layer[] {
  const { arrows, palette } = props
  const drawn = { beforeId: props.beforeId, parameters: { depthCompare: 'always' as const } }
  const path = pathLayers(props.id, drawn)
  const shafts = arrows.flatMap(({ shaft }) => (shaft.length === 0 ? [] : [shaft]))
  const heads = arrows.map(({ head }) => head)
  return [
    path('arrow-halos', [...shafts, ...heads], palette.halo, 4.5),
    path('arrow-shafts', shafts, palette.ink, 2),
    path('arrow-heads', heads, palette.ink, 1.6),
    new PolygonLayer<DrawnArrow>({
      ...drawn,
      id: `${props.id}-arrow-fills`,
      data: arrows.filter(({ standing }) => standing === 'told'),
      getPolygon: ({ head }) => head as Position[],
      getFillColor: toRgba(palette.ink),
      stroked: false,
      updateTriggers: { getFillColor: palette },
    }),
  ]
}
