import type { Layer } from '@deck.gl/core'
import { IconLayer, TextLayer } from '@deck.gl/layers'
import type { AlertMark } from '../../../derived/alerts/alert-marks.ts'
import { type Palette, toRgba } from '../../../ui/palettes.ts'
import { type AtlasIcon, alertIcon } from '../symbol-atlas.ts'

/** How much larger than a symbol its frame is: the arc and the numeral stay inside. */
const frameScale = 1.4
/** From this size of symbols on every age is written; below only the selected one's. */
const agesFromPixels = 34

/** Open alerts: a frame round the symbol, and how old the alert is at its upper left. */
export function alertLayers(props: {
  readonly marks: readonly AlertMark[]
  readonly selectedId: string | null
  readonly atlas: ImageBitmap
  readonly icons: Readonly<Record<string, AtlasIcon>>
  readonly palette: Palette
  readonly sizePixels: number
  readonly beforeId: string
}): Layer[] {
  const { marks, palette, sizePixels } = props
  const drawn = { beforeId: props.beforeId, parameters: { depthCompare: 'always' as const } }
  const position = ({ longitude, latitude }: AlertMark): [number, number] => [longitude, latitude]
  return [
    new IconLayer<AlertMark>({
      ...drawn,
      id: 'alert-frames',
      data: marks,
      iconAtlas: props.atlas as never,
      iconMapping: props.icons as never,
      sizeUnits: 'pixels',
      getPosition: position,
      getIcon: ({ response }) => alertIcon(response),
      getSize: sizePixels * frameScale,
      updateTriggers: { getSize: sizePixels },
    }),
    new TextLayer<AlertMark>({
      ...drawn,
      id: 'alert-ages',
      data: labelledMarks(marks, props.selectedId, sizePixels),
      getPosition: position,
      getText: ({ label }) => label,
      getSize: 12,
      fontWeight: 700,
      getColor: toRgba(palette.sheet),
      getTextAnchor: 'end',
      getPixelOffset: [-sizePixels * 0.2, -sizePixels * frameScale * 0.5 - 6],
      background: true,
      getBackgroundColor: toRgba(palette.ink),
      backgroundPadding: [4, 1],
      fontFamily: 'system-ui, sans-serif',
      characterSet: '0123456789: minhd',
      updateTriggers: { getPixelOffset: sizePixels },
    }),
  ]
}

/** The marks whose age is written. */
export const labelledMarks = (marks: readonly AlertMark[], selectedId: string | null, sizePixels: number) =>
  sizePixels >= agesFromPixels ? marks : marks.filter(({ id }) => id === selectedId)
