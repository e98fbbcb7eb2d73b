import type { Layer } from '@deck.gl/core'
import { IconLayer } from '@deck.gl/layers'
import type { CoverageMark } from '../../../derived/coverage-marks.ts'
import type { Palette } from '../../../ui/palettes.ts'

const boxPixels = 56
const barWidth = 6

/** Icon of one test in a box of 56 by 56: six bars from SF 7 to SF 12, the half line, and tick or cross. */
export function coverageMarkup(mark: CoverageMark, palette: Palette): string {
  const colour = mark.met ? palette.met : palette.notMet
  const bars = mark.delivered.map((one) => {
    const share = one.sent === 0 ? 0 : one.received / one.sent
    const x = 7 + (one.spreadingFactor - 7) * 7
    const height = Math.max(1, share * 26)
    const fill = share >= 0.5 ? colour : palette.sheet
    return `<rect x="${x}" y="${38 - height}" width="${barWidth - 1}" height="${height}" fill="${fill}" stroke="${colour}" stroke-width="1"/>`
  })
  const verdict = mark.met
    ? `<path d="M22 45l4 4 8-8" fill="none" stroke="${colour}" stroke-width="2.5"/>`
    : `<path d="M23 42l9 8M32 42l-9 8" fill="none" stroke="${colour}" stroke-width="2.5"/>`
  return `<rect x="3" y="7" width="50" height="46" rx="3" fill="${palette.sheet}" fill-opacity="0.92" stroke="${colour}" stroke-width="1.5"${mark.met ? '' : ' stroke-dasharray="4 2.5"'}/>${bars.join('')}<path d="M5 25h46" stroke="${palette.inkSoft}" stroke-width="1" stroke-dasharray="2 2"/>${verdict}`
}

/** One SVG with the icons of all tests, side by side. */
export function coverageAtlasSvg(marks: readonly CoverageMark[], palette: Palette) {
  const columns = 12
  const width = columns * boxPixels
  const height = Math.max(1, Math.ceil(marks.length / columns)) * boxPixels
  const icons: Record<string, { x: number; y: number; width: number; height: number; mask: boolean }> = {}
  const cells = marks.map((mark, place) => {
    const x = (place % columns) * boxPixels
    const y = Math.floor(place / columns) * boxPixels
    icons[mark.test] = { x: x * 2, y: y * 2, width: boxPixels * 2, height: boxPixels * 2, mask: false }
    return `<g transform="translate(${x} ${y})">${coverageMarkup(mark, palette)}</g>`
  })
  return {
    svg: `<svg xmlns="http://www.w3.org/2000/svg" width="${width * 2}" height="${height * 2}" viewBox="0 0 ${width} ${height}">${cells.join('')}</svg>`,
    widthPixels: width * 2,
    heightPixels: height * 2,
    icons,
  }
}

export function coverageLayers(props: {
  readonly marks: readonly CoverageMark[]
  readonly atlas: ImageBitmap
  readonly icons: Readonly<Record<string, unknown>>
  readonly sizePixels: number
  readonly beforeId: string
}): Layer[] {
  return [
    new IconLayer<CoverageMark>({
      id: 'coverage-tests',
      beforeId: props.beforeId,
      parameters: { depthCompare: 'always' },
      data: props.marks,
      iconAtlas: props.atlas as never,
      iconMapping: props.icons as never,
      getPosition: (mark: CoverageMark) => [mark.longitude, mark.latitude],
      getIcon: (mark: CoverageMark) => mark.test,
      getSize: props.sizePixels,
      sizeUnits: 'pixels',
    } as never),
  ]
}
