import type { SitePoint } from '#domain/geometry/site-grid.ts'
import { gridTicks, groupedMetres, roundSpacing, type SheetCorners } from './grid-ticks.ts'

const svgName = 'http://www.w3.org/2000/svg'
const marginPixels = 18

export interface SheetFrame {
  /** Redraws ticks and scale for what the plan shows now. */
  update(widthPixels: number, heightPixels: number, corners: SheetCorners): void
  /** The same on a board, where ticks would only crowd: scale bar and north, in text of that size. */
  updateBoard(heightPixels: number, corners: SheetCorners, widthPixels: number, textPixels: number): void
  destroy(): void
}

/** The margin of the drawing sheet: site grid ticks on its four edges and a scale bar. */
export function createSheetFrame(parent: HTMLElement): SheetFrame {
  const svg = document.createElementNS(svgName, 'svg')
  svg.setAttribute('class', 'sheet-frame')
  svg.setAttribute('aria-hidden', 'true')
  parent.append(svg)
  return {
    update(width, height, corners) {
      const metresAPixel = distance(corners.topLeft, corners.topRight) / Math.max(1, width)
      if (!Number.isFinite(metresAPixel) || metresAPixel <= 0) return
      svg.setAttribute('viewBox', `0 0 ${width} ${height}`)
      svg.innerHTML = [
        margin(width, height),
        ...ticks(width, height, corners, metresAPixel),
        scaleBar(height, metresAPixel),
      ].join('')
    },
    updateBoard(height, corners, width, textPixels) {
      const metresAPixel = distance(corners.topLeft, corners.topRight) / Math.max(1, width)
      if (!Number.isFinite(metresAPixel) || metresAPixel <= 0) return
      svg.setAttribute('viewBox', `0 0 ${width} ${height}`)
      svg.innerHTML = boardScale(height, metresAPixel, corners, textPixels)
    },
    destroy: () => svg.remove(),
  }
}

function margin(width: number, height: number): string {
  const inside = `M${marginPixels} ${marginPixels}V${height - marginPixels}H${width - marginPixels}V${marginPixels}Z`
  return `<path class="sheet-margin" fill-rule="evenodd" d="M0 0H${width}V${height}H0Z${inside}"/><path class="sheet-line" d="${inside}"/>`
}

function ticks(width: number, height: number, corners: SheetCorners, metresAPixel: number): string[] {
  const spacing = roundSpacing(metresAPixel * 110)
  return gridTicks(corners, spacing).flatMap(({ edge, along, axis, metres }) => {
    const text = `${axis}\u2009${groupedMetres(metres)}`
    const x = along * width
    const y = along * height
    if (edge === 'top' || edge === 'bottom') {
      if (x < 60 || x > width - 60) return []
      const [line, base] = edge === 'top' ? [marginPixels, 13] : [height - marginPixels, height - 5]
      const inward = edge === 'top' ? 7 : -7
      return `<path class="sheet-line" d="M${x.toFixed(1)} ${line}v${inward}"/><text x="${x.toFixed(1)}" y="${base}" text-anchor="middle">${text}</text>`
    }
    if (y < 60 || y > height - 60) return []
    const [line, base] = edge === 'left' ? [marginPixels, 13] : [width - marginPixels, width - 5]
    const inward = edge === 'left' ? 7 : -7
    return `<path class="sheet-line" d="M${line} ${y.toFixed(1)}h${inward}"/><text transform="translate(${base} ${y.toFixed(1)}) rotate(-90)" text-anchor="middle">${text}</text>`
  })
}

function scaleBar(height: number, metresAPixel: number): string {
  const length = roundSpacing(metresAPixel * 60)
  const half = length / metresAPixel
  const [x, y] = [marginPixels + 14, height - marginPixels - 16]
  const label = (at: number, text: string) =>
    `<text class="sheet-scale" x="${at.toFixed(1)}" y="${y - 5}" text-anchor="middle">${text}</text>`
  return `<path class="sheet-bar" d="M${x} ${y}h${half.toFixed(1)}v6h${(-half).toFixed(1)}z"/><path class="sheet-bar-open" d="M${(x + half).toFixed(1)} ${y}h${half.toFixed(1)}v6h${(-half).toFixed(1)}z"/>${label(x, '0')}${label(x + half, String(length))}${label(x + 2 * half, `${length * 2} m`)}`
}

/** Scale bar at the lower left with north above it, turned as the plan is. */
function boardScale(height: number, metresAPixel: number, corners: SheetCorners, text: number): string {
  const length = roundSpacing(metresAPixel * text * 4)
  const half = length / metresAPixel
  const thick = text * 0.3
  const [x, y] = [text, height - text * 0.9]
  const [east, north] = [
    corners.topLeft[0] - corners.bottomLeft[0],
    corners.topLeft[1] - corners.bottomLeft[1],
  ]
  const turned = -(Math.atan2(east, north) * 180) / Math.PI
  const label = (at: number, words: string) =>
    `<text class="board-scale" font-size="${text}" x="${at.toFixed(1)}" y="${(y - text * 0.25).toFixed(1)}" text-anchor="middle">${words}</text>`
  const arrow = `<g transform="translate(${(x + text * 0.5).toFixed(1)} ${(y - text * 3.4).toFixed(1)}) rotate(${turned.toFixed(1)}) scale(${(text / 14).toFixed(2)})"><path class="board-north" d="M0 -14L6 12L0 7L-6 12Z"/></g>`
  return `${arrow}<text class="board-scale" font-size="${text}" x="${(x + text * 1.3).toFixed(1)}" y="${(y - text * 2.9).toFixed(1)}">N</text><path class="sheet-bar" d="M${x} ${y}h${half.toFixed(1)}v${thick.toFixed(1)}h${(-half).toFixed(1)}z"/><path class="sheet-bar-open" d="M${(x + half).toFixed(1)} ${y}h${half.toFixed(1)}v${thick.toFixed(1)}h${(-half).toFixed(1)}z"/>${label(x + half, String(length))}${label(x + 2 * half + text * 0.6, `${length * 2} m`)}`
}

const distance = (from: SitePoint, to: SitePoint) => Math.hypot(to[0] - from[0], to[1] - from[1])
