import type { Layer } from '@deck.gl/core'
import { IconLayer, TextLayer } from '@deck.gl/layers'
import { byUrgency } from '../../../derived/alerts/alert-groups.ts'
import type { AlertMark } from '../../../derived/alerts/alert-marks.ts'
import { type Palette, toRgba } from '../../../ui/palettes.ts'
import { type AtlasIcon, alertIcon } from '../symbol-atlas.ts'

/** How much larger than a symbol its frame is: the arc and the numeral stay inside. */
const frameScale = 1.25
/** From this size of symbols on every age is written; below only the selected one's. */
const agesFromPixels = 34
const usualTextPixels = 12

/** Open alerts: a frame round the symbol, and how old the alert is at its upper left; over names, whose halo would open a frame. */
export function alertLayers(props: {
  readonly marks: readonly AlertMark[]
  readonly selectedId: string | null
  readonly atlas: ImageBitmap
  readonly icons: Readonly<Record<string, AtlasIcon>>
  readonly palette: Palette
  readonly sizePixels: number
  readonly leastTextPixels: number
  readonly metresPerPixel: number
}): Layer[] {
  const { marks, palette, sizePixels } = props
  const textPixels = Math.max(usualTextPixels, props.leastTextPixels)
  const drawn = { parameters: { depthCompare: 'always' as const } }
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
      data: labelledMarks(marks, { ...props, textPixels }),
      getPosition: position,
      getText: ({ label }) => label,
      getSize: textPixels,
      fontWeight: 700,
      getColor: toRgba(palette.sheet),
      getTextAnchor: 'end',
      getPixelOffset: [-sizePixels * 0.2, -sizePixels * frameScale * 0.5 - textPixels / 2],
      background: true,
      getBackgroundColor: toRgba(palette.ink),
      backgroundPadding: [4, 1],
      fontFamily: 'system-ui, sans-serif',
      characterSet: '0123456789: minhd',
      updateTriggers: { getPixelOffset: sizePixels },
    }),
  ]
}

/**
 * The marks whose age is written: the selected one, then those that press most, as far as no text lies over another.
 * `metresPerPixel` at the latitude of the site.
 */
export function labelledMarks(
  marks: readonly AlertMark[],
  { selectedId, sizePixels, metresPerPixel, textPixels = usualTextPixels }: LabelRoom,
): readonly AlertMark[] {
  const wanted = marks
    .filter(({ id }) => (sizePixels >= agesFromPixels && textPixels <= usualTextPixels) || id === selectedId)
    .sort(
      (one, other) =>
        Number(other.id === selectedId) - Number(one.id === selectedId) || byPressing(one, other),
    )
  const kept: {
    readonly mark: AlertMark
    readonly right: number
    readonly y: number
    readonly width: number
  }[] = []
  for (const mark of wanted) {
    const squash = Math.cos((mark.latitude * Math.PI) / 180)
    const right = (mark.longitude * 111_320 * squash) / metresPerPixel
    const y = (mark.latitude * 111_320) / metresPerPixel
    const width = 8 + 0.63 * textPixels * mark.label.length
    const isFree = kept.every(
      (one) =>
        Math.abs(one.y - y) > 1.5 * textPixels ||
        right <= one.right - one.width ||
        one.right <= right - width,
    )
    if (isFree) kept.push({ mark, right, y, width })
  }
  return kept.map(({ mark }) => mark)
}

interface LabelRoom {
  readonly selectedId: string | null
  readonly sizePixels: number
  readonly metresPerPixel: number
  readonly textPixels?: number
}

function byPressing(one: AlertMark, other: AlertMark): number {
  const [left, right] = [one.alerts[0], other.alerts[0]]
  return left && right ? byUrgency(left, right) : 0
}
