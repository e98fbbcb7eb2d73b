import type { Layer } from '@deck.gl/core'
import { IconLayer, TextLayer } from '@deck.gl/layers'
import { type Palette, toRgba } from '../../../ui/palettes.ts'
import type { AtlasIcon } from '../symbol-atlas.ts'

/** A logger or gateway where it stands. */
export interface RadioMark {
  readonly id: string
  readonly kind: 'logger' | 'gateway'
  readonly longitude: number
  readonly latitude: number
}

/** Loggers and gateways, drawn as a box with its aerial and a stayed mast. */
export function radioLayers(props: {
  readonly marks: readonly RadioMark[]
  readonly atlas: ImageBitmap
  readonly icons: Readonly<Record<string, AtlasIcon>>
  readonly palette: Palette
  readonly sizePixels: number
  readonly leastTextPixels: number
  readonly beforeId: string
}): Layer[] {
  const drawn = { beforeId: props.beforeId, parameters: { depthCompare: 'always' as const } }
  // Loggers often stand beside their instruments: drawn a little to the upper left of their place.
  const aside = (mark: RadioMark): [number, number] => (mark.kind === 'logger' ? [-14, -18] : [0, -6])
  return [
    new IconLayer<RadioMark>({
      ...drawn,
      id: 'radio',
      data: props.marks,
      iconAtlas: props.atlas as never,
      iconMapping: props.icons as never,
      sizeUnits: 'pixels',
      getPosition: (mark) => [mark.longitude, mark.latitude],
      getIcon: (mark) => mark.kind,
      getSize: (mark) => (mark.kind === 'gateway' ? props.sizePixels * 1.3 : props.sizePixels),
      getPixelOffset: aside,
      updateTriggers: { getSize: props.sizePixels },
    }),
    new TextLayer<RadioMark>({
      ...drawn,
      id: 'radio-names',
      data: props.marks,
      getPosition: (mark) => [mark.longitude, mark.latitude],
      getText: (mark) => mark.id,
      getSize: (mark) => Math.max(mark.kind === 'gateway' ? 13 : 11, props.leastTextPixels),
      getColor: toRgba(props.palette.ink),
      getPixelOffset: (mark) => [aside(mark)[0], aside(mark)[1] - props.sizePixels * 0.5 - 4],
      background: true,
      getBackgroundColor: toRgba(props.palette.sheet, 215),
      backgroundPadding: [2, 0],
      fontFamily: 'system-ui, sans-serif',
      updateTriggers: { getPixelOffset: props.sizePixels },
    }),
  ]
}
