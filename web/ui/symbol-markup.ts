import type { Palette } from './palettes.ts'
import { levelOf, type Standing, standingColour } from './state-scale.ts'
import type { SymbolPaths } from './symbols.ts'

/** Side of the square box that symbols with their state are drawn in. */
export const symbolBox = 48

const plateRadius = 16

export interface DrawnState {
  readonly standing: Standing
  /** Some of what it stands for has no current data: its lower part is hatched. */
  readonly partLate: boolean
  /** How many trigger levels the site names. */
  readonly levels: number
}

/**
 * SVG elements of a symbol on its plate, in a box of 48 by 48. Filled by state; hollow and hatched without
 * current data; a numeral from Level 1 on. Crossed out where out of use. Reads in greyscale.
 */
export function symbolMarkup(paths: SymbolPaths, state: DrawnState, palette: Palette): string {
  const fill = standingColour(state.standing, state.levels, palette)
  const glyphColour = fill === null ? palette.ink : palette.sheet
  return [
    plate(state.standing, fill, palette),
    state.standing === 'late' ? hatch(-plateRadius, palette.inkSoft, 1.6) : '',
    state.partLate && state.standing !== 'late' ? hatch(3, glyphColour, 2.4) : '',
    glyph(paths, glyphColour, fill ?? palette.sheet),
    state.standing === 'out-of-use' ? cross(palette) : '',
    numeral(state.standing, palette),
  ].join('')
}

/** Hourglass on a disc at the lower left of the box: a value of it came later than the instant. Shape, not colour, tells it. */
export function cameLaterMarkup(palette: Palette): string {
  return `<circle cx="10" cy="38" r="9" fill="${palette.sheet}" stroke="${palette.ink}" stroke-width="1.5"/><path d="M6 32.5H14L6 43.5H14Z" fill="${palette.ink}" stroke="${palette.ink}" stroke-width="1.2" stroke-linejoin="round"/>`
}

/** SVG elements of a bare symbol, for legends and loggers, in the same box. */
export function bareMarkup(paths: SymbolPaths, colour: string, behind: string): string {
  return glyph(paths, colour, behind)
}

/** Arc around a plate from twelve o'clock, clockwise; share 0 to 1, more is a full ring. */
export function arcPath(share: number): string {
  const radius = 20
  const centre = symbolBox / 2
  const turn = Math.min(Math.max(share, 0), 0.9999) * 2 * Math.PI
  const x = centre + radius * Math.sin(turn)
  const y = centre - radius * Math.cos(turn)
  return `M${centre} ${centre - radius}A${radius} ${radius} 0 ${turn > Math.PI ? 1 : 0} 1 ${x.toFixed(2)} ${y.toFixed(2)}`
}

/** A whole SVG document or element of a symbol with its arc. */
export function symbolSvg(
  paths: SymbolPaths,
  state: DrawnState & { readonly share: number | null; readonly cameLater?: boolean },
  palette: Palette,
  sizePixels: number,
): string {
  const colour = standingColour(state.standing, state.levels, palette) ?? palette.inkSoft
  const arc =
    state.share === null || state.standing === 'late'
      ? ''
      : `<path d="${arcPath(1)}" fill="none" stroke="${palette.rule}" stroke-width="2"/><path d="${arcPath(state.share)}" fill="none" stroke="${colour}" stroke-width="4"/>`
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${sizePixels}" height="${sizePixels}" viewBox="0 0 ${symbolBox} ${symbolBox}" aria-hidden="true">${arc}${symbolMarkup(paths, state, palette)}${state.cameLater ? cameLaterMarkup(palette) : ''}</svg>`
}

function plate(standing: Standing, fill: string | null, palette: Palette): string {
  const circle = (attributes: string) => `<circle cx="24" cy="24" r="${plateRadius}" ${attributes}/>`
  if (fill !== null) return circle(`fill="${fill}" stroke="${palette.halo}" stroke-width="1.5"`)
  const dashes = { late: '5 3', unknown: '1.5 3.5' }[standing as 'late']
  const dash = dashes ? ` stroke-dasharray="${dashes}"` : ''
  return circle(`fill="${palette.sheet}" stroke="${palette.ink}" stroke-width="2"${dash}`)
}

/** Crossed out: nothing is measured there any more. */
function cross(palette: Palette): string {
  const arm = 11.3
  const path = `M${24 - arm} ${24 - arm}l${2 * arm} ${2 * arm}m0 ${-2 * arm}l${-2 * arm} ${2 * arm}`
  return `<path d="${path}" fill="none" stroke="${palette.sheet}" stroke-width="5"/><path d="${path}" fill="none" stroke="${palette.ink}" stroke-width="2"/>`
}

/** Strokes at 45° across the plate, from `below` (measured down from its middle) to its foot. */
function hatch(below: number, colour: string, width: number): string {
  const radius = plateRadius - 1
  const strokes: string[] = []
  for (let offset = -20; offset <= 20; offset += 5) {
    const half = Math.sqrt(Math.max(0, radius * radius - (offset * offset) / 2))
    if (half === 0) continue
    const along = half / Math.SQRT2
    const middle = offset / 2
    const [left, right] = [-along + middle, along + middle]
    // A point on the stroke is (t + offset/2, −t + offset/2): keep the part that lies below.
    const rightEnd = Math.min(right, offset - below)
    if (rightEnd <= left) continue
    strokes.push(
      `M${(24 + left).toFixed(1)} ${(24 + offset - left).toFixed(1)}L${(24 + rightEnd).toFixed(1)} ${(24 + offset - rightEnd).toFixed(1)}`,
    )
  }
  return `<path d="${strokes.join('')}" fill="none" stroke="${colour}" stroke-width="${width}"/>`
}

function glyph(paths: SymbolPaths, colour: string, behind: string): string {
  const lines = (stroke: string, width: number) =>
    `<path d="${paths.lines}${paths.solids}" fill="none" stroke="${stroke}" stroke-width="${width}" stroke-linecap="round" stroke-linejoin="round"/>`
  const solids = paths.solids === '' ? '' : `<path d="${paths.solids}" fill="${colour}"/>`
  return `<g transform="translate(13.2 13.2) scale(0.9)">${lines(behind, 5)}<path d="${paths.lines}" fill="none" stroke="${colour}" stroke-width="2.2" stroke-linecap="round" stroke-linejoin="round"/>${solids}</g>`
}

function numeral(standing: Standing, palette: Palette): string {
  const level = levelOf(standing)
  if (level === 0) return ''
  return `<circle cx="38" cy="10" r="9" fill="${palette.ink}" stroke="${palette.halo}" stroke-width="1.5"/><text x="38" y="14.5" text-anchor="middle" font-family="system-ui, sans-serif" font-size="13" font-weight="700" fill="${palette.sheet}">${level}</text>`
}
