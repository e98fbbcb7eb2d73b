import { type Palette, palettes } from '../../ui/palettes.ts'
import { mixColours } from '../../ui/state-scale.ts'
import type { Mark } from '../../views/marks/mark.ts'
import type { FigureScope } from '../document.ts'
import {
  circlePath,
  joinedMatrix,
  type Matrix,
  moved,
  readPath,
  readTransform,
  type Segment,
  unmoved,
} from './path-segments.ts'
import { openStyleSheet, type Place, placeOf, type StyleSheet } from './select-style.ts'
import type { MarkStyle, Paint } from './style-rules.ts'

/** An outline as it is put on paper: pixels of the figure's room, colours as `#rrggbb`. */
export interface DrawnShape {
  readonly kind: 'shape'
  readonly outline: readonly Segment[]
  readonly fill: string | null
  readonly fillOpacity: number
  readonly stroke: string | null
  readonly strokeOpacity: number
  readonly strokePixels: number
  readonly dash: readonly number[]
  readonly round: boolean
  readonly clips: readonly (readonly Segment[])[]
}

export interface DrawnText {
  readonly kind: 'text'
  readonly text: string
  /** Turn and place; text runs along its x from its anchor. */
  readonly matrix: Matrix
  readonly anchor: 'start' | 'middle' | 'end'
  readonly fontPixels: number
  readonly face: 'regular' | 'bold' | 'oblique'
  readonly fill: string
  readonly halo: { readonly colour: string; readonly pixels: number } | null
  /** A plate that its view laid below it: as broad as the view guessed. */
  readonly ground: DrawnShape | null
  readonly clips: readonly (readonly Segment[])[]
}

export type Drawn = DrawnShape | DrawnText

/** The palette of a printed sheet: the light one on white, so that no tone is lost to a tinted ground. */
export const sheetPalette: Palette = {
  ...palettes.paper,
  paper: '#ffffff',
  sheet: '#ffffff',
  halo: '#ffffff',
  ground: '#f4f1e8',
  rule: '#bdb7a8',
}

interface Held {
  readonly place: Place | null
  readonly style: MarkStyle
  readonly matrix: Matrix
  readonly clips: readonly (readonly Segment[])[]
}

/**
 * Marks as outlines and texts in the order in which they are drawn, with the styles of their view: what both writers put
 * on paper, so that page and PDF are one drawing. Patterns become clipped outlines.
 */
export function drawnMarks(marks: readonly Mark[], scope: FigureScope, fontPixels: number): Drawn[] {
  const all = new Map<string, Mark>()
  const collect = (mark: Mark) => {
    if (mark.attributes.id !== undefined) all.set(String(mark.attributes.id), mark)
    mark.children?.forEach(collect)
  }
  marks.forEach(collect)
  const room: Room = { sheet: openStyleSheet(scope), named: all, fontPixels, drawn: [], ground: null }
  const root: Held = { place: null, style: { fill: 'ink', stroke: 'none' }, matrix: unmoved, clips: [] }
  for (const mark of marks) draw(mark, root, room)
  return room.drawn
}

interface Room {
  readonly sheet: StyleSheet
  readonly named: ReadonlyMap<string, Mark>
  readonly fontPixels: number
  readonly drawn: Drawn[]
  /** A plate that waits for its text. */
  ground: DrawnShape | null
}

function draw(mark: Mark, holder: Held, room: Room): void {
  const { attributes } = mark
  if (mark.tag === 'defs' || mark.tag === 'clipPath' || mark.tag === 'pattern') return
  const place = placeOf(mark.tag, String(attributes.class ?? ''), holder.place)
  const style = { ...holder.style, ...room.sheet.styleAt(place) }
  const matrix =
    attributes.transform === undefined
      ? holder.matrix
      : joinedMatrix(holder.matrix, readTransform(String(attributes.transform)))
  const clip = named(attributes['clip-path'], room)
  const clips = clip
    ? [...holder.clips, (clip.children ?? []).flatMap((one) => moved(outlineOf(one), matrix))]
    : holder.clips
  const held = { place, style, matrix, clips }
  if (mark.tag === 'g') for (const child of mark.children ?? []) draw(child, held, room)
  else if (mark.tag === 'text') drawText(mark, held, room)
  else drawShape(mark, held, room)
}

function drawShape(mark: Mark, { style, matrix, clips, place }: Held, room: Room): void {
  const outline = moved(outlineOf(mark), matrix)
  if (outline.length === 0) return
  const scale = Math.sqrt(Math.abs(matrix[0] * matrix[3] - matrix[1] * matrix[2]))
  const pattern = named(mark.attributes.fill, room)
  const ruledFill = room.sheet.styleAt(place as Place).fill
  const own = mark.attributes.fill === undefined || ruledFill !== undefined ? null : mark.attributes.fill
  const dash = style.dash === 'line' ? (style.lineDash ?? []) : (style.dash ?? [])
  const fill = own !== null && !pattern ? writtenColour(String(own)) : colourOf(style.fill, style)
  const shape: DrawnShape = {
    kind: 'shape',
    outline,
    fill: pattern || mark.tag === 'line' ? null : fill,
    fillOpacity: style.fillOpacity ?? Number(mark.attributes['fill-opacity'] ?? 1),
    stroke: colourOf(style.stroke, style),
    strokeOpacity: style.strokeOpacity ?? 1,
    strokePixels: (style.strokeWidth ?? 1) * scale,
    dash: dash.map((length) => length * scale),
    round: style.round ?? false,
    clips,
  }
  if (pattern) tile(pattern, outline, { place, style, matrix, clips }, room)
  if (place?.classes.includes('text-ground')) room.ground = shape
  else if (shape.fill !== null || shape.stroke !== null) room.drawn.push(shape)
}

/** Draws a pattern's own marks over the extent of an outline, kept within it. */
function tile(pattern: Mark, outline: readonly Segment[], held: Held, room: Room): void {
  const wide = Number(pattern.attributes.width)
  const high = Number(pattern.attributes.height)
  if (!(wide > 0) || !(high > 0)) throw new Error('A pattern needs a width and a height above nought.')
  const xs = outline.flatMap((one) => one.slice(1).filter((_, place) => place % 2 === 0) as number[])
  const ys = outline.flatMap((one) => one.slice(1).filter((_, place) => place % 2 === 1) as number[])
  const clips = [...held.clips, outline]
  const [fromX, toX] = [Math.floor(Math.min(...xs) / wide), Math.ceil(Math.max(...xs) / wide)]
  const [fromY, toY] = [Math.floor(Math.min(...ys) / high), Math.ceil(Math.max(...ys) / high)]
  for (let column = fromX; column < toX; column++)
    for (let row = fromY; row < toY; row++)
      for (const child of pattern.children ?? [])
        draw(child, { ...held, matrix: [1, 0, 0, 1, column * wide, row * high], clips }, room)
}

function drawText(mark: Mark, { style, matrix, clips }: Held, room: Room): void {
  const { attributes, text } = mark
  if (!text) return
  const anchor = attributes['text-anchor']
  const colour = colourOf(style.fill, style)
  if (colour === null) return
  room.drawn.push({
    kind: 'text',
    text,
    matrix: joinedMatrix(matrix, [1, 0, 0, 1, Number(attributes.x ?? 0), Number(attributes.y ?? 0)]),
    anchor: anchor === 'middle' || anchor === 'end' ? anchor : 'start',
    fontPixels: Number(attributes['font-size'] ?? room.fontPixels) * (style.fontShare ?? 1),
    face: style.bold ? 'bold' : style.italic ? 'oblique' : 'regular',
    fill: colour,
    halo:
      style.haloPixels === undefined
        ? null
        : { colour: sheetPalette[(style.halo ?? 'halo') as keyof Palette], pixels: style.haloPixels },
    ground: room.ground,
    clips,
  })
  room.ground = null
}

function outlineOf({ tag, attributes }: Mark): Segment[] {
  const number = (name: string) => Number(attributes[name] ?? 0)
  if (tag === 'path') return readPath(String(attributes.d ?? ''))
  if (tag === 'circle') return circlePath(number('cx'), number('cy'), number('r'))
  if (tag === 'line')
    return [
      ['M', number('x1'), number('y1')],
      ['L', number('x2'), number('y2')],
    ]
  if (tag !== 'rect') return []
  const [left, top] = [number('x'), number('y')]
  const [right, bottom] = [left + number('width'), top + number('height')]
  return [['M', left, top], ['L', right, top], ['L', right, bottom], ['L', left, bottom], ['Z']]
}

const named = (reference: string | number | undefined, room: Room): Mark | undefined => {
  const id = /^url\(#(.+)\)$/.exec(String(reference ?? ''))?.[1]
  return id === undefined ? undefined : room.named.get(id)
}

function colourOf(paint: Paint | undefined, style: MarkStyle): string | null {
  if (paint === undefined || paint === 'none') return null
  if (paint !== 'line') return sheetPalette[paint]
  return style.line === undefined || style.line === 'line' ? sheetPalette.ink : colourOf(style.line, style)
}

/** A colour that a mark brings itself: as it is, or mixed between a palette's first and last level. */
function writtenColour(text: string): string | null {
  if (text === 'none') return null
  const share = /^color-mix\(in srgb, var\(--first-level\) (\d+)%, var\(--last-level\)\)$/.exec(text)?.[1]
  if (share !== undefined)
    return mixColours(sheetPalette.firstLevel, sheetPalette.lastLevel, 1 - Number(share) / 100)
  if (/^#[0-9a-f]{6}$/i.test(text)) return text
  throw new Error(`This colour is not known to a drawing on paper: ${text}`)
}
