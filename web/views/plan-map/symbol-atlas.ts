import { instrumentKinds } from '#domain/site/vocabulary.ts'
import { alertFrameMarkup, type DrawnResponse, drawnResponses } from '../../ui/alert-mark.ts'
import type { Palette } from '../../ui/palettes.ts'
import type { Standing } from '../../ui/state-scale.ts'
import { arcPath, bareMarkup, cameLaterMarkup, symbolBox, symbolMarkup } from '../../ui/symbol-markup.ts'
import { gatewaySymbol, loggerSymbol, symbols } from '../../ui/symbols.ts'

/** Place of one icon in the atlas; `mask` icons take their colour from the layer. */
export interface AtlasIcon {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
  readonly mask: boolean
}

export interface AtlasPlan {
  readonly svg: string
  readonly widthPixels: number
  readonly heightPixels: number
  readonly icons: Readonly<Record<string, AtlasIcon>>
}

const arcSteps = 40
const cellPixels = symbolBox * 2
const columns = 16

export const symbolIcon = (kind: string, standing: Standing, partLate: boolean): string =>
  `${kind}/${standing}${partLate ? '/part-late' : ''}`

/** Icon of an arc, to the nearest fortieth; a share above nought always shows a little. */
export const arcIcon = (share: number): string =>
  `arc/${Math.min(arcSteps, Math.max(share > 0 ? 1 : 0, Math.round(share * arcSteps)))}`

/** Icon of the frame round a symbol with an open alert. */
export const alertIcon = (response: DrawnResponse): string => `alert/${response}`

/** One SVG that holds every icon of the plan in one theme, and where each of them lies. */
export function planAtlas(palette: Palette, levels: number): AtlasPlan {
  const cells: { name: string; markup: string; mask: boolean }[] = []
  const standings: Standing[] = ['unknown', 'out-of-use', 'late', 'no-level', 'within']
  for (let level = 1; level <= levels; level += 1) standings.push(`level-${level}`)
  for (const kind of instrumentKinds) {
    for (const standing of standings) {
      for (const partLate of [false, true]) {
        const markup = symbolMarkup(symbols[kind], { standing, partLate, levels }, palette)
        cells.push({ name: symbolIcon(kind, standing, partLate), markup, mask: false })
      }
    }
  }
  for (let step = 0; step <= arcSteps; step += 1) {
    const path =
      step === 0 ? '' : `<path d="${arcPath(step / arcSteps)}" fill="none" stroke="#fff" stroke-width="4.5"/>`
    cells.push({ name: `arc/${step}`, markup: path, mask: true })
  }
  cells.push({
    name: 'arc-track',
    markup: `<circle cx="24" cy="24" r="20" fill="none" stroke="#fff" stroke-width="2"/>`,
    mask: true,
  })
  cells.push({ name: 'logger', markup: bareMarkup(loggerSymbol, palette.ink, palette.halo), mask: false })
  cells.push({ name: 'gateway', markup: bareMarkup(gatewaySymbol, palette.ink, palette.halo), mask: false })
  cells.push({ name: 'came-later', markup: cameLaterMarkup(palette), mask: false })
  for (const response of drawnResponses)
    cells.push({ name: alertIcon(response), markup: alertFrameMarkup(response, palette), mask: false })
  return layOut(cells)
}

/** Draws an atlas; rejects when the browser cannot. */
export async function drawAtlas(plan: AtlasPlan): Promise<ImageBitmap> {
  const image = new Image(plan.widthPixels, plan.heightPixels)
  image.src = `data:image/svg+xml,${encodeURIComponent(plan.svg)}`
  await image.decode()
  const canvas = document.createElement('canvas')
  canvas.width = plan.widthPixels
  canvas.height = plan.heightPixels
  canvas.getContext('2d')?.drawImage(image, 0, 0, plan.widthPixels, plan.heightPixels)
  return createImageBitmap(canvas)
}

function layOut(cells: readonly { name: string; markup: string; mask: boolean }[]): AtlasPlan {
  const rows = Math.ceil(cells.length / columns)
  const icons: Record<string, AtlasIcon> = {}
  const drawn = cells.map((cell, place) => {
    const x = (place % columns) * symbolBox
    const y = Math.floor(place / columns) * symbolBox
    icons[cell.name] = { x: x * 2, y: y * 2, width: cellPixels, height: cellPixels, mask: cell.mask }
    return `<g transform="translate(${x} ${y})">${cell.markup}</g>`
  })
  const width = columns * symbolBox
  const height = rows * symbolBox
  return {
    svg: `<svg xmlns="http://www.w3.org/2000/svg" width="${width * 2}" height="${height * 2}" viewBox="0 0 ${width} ${height}">${drawn.join('')}</svg>`,
    widthPixels: width * 2,
    heightPixels: height * 2,
    icons,
  }
}
