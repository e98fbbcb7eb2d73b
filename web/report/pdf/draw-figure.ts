import type { Drawn, DrawnShape, DrawnText } from '../marks/drawn-marks.ts'
import { moved, type Segment } from '../marks/path-segments.ts'
import { written, writtenAll, writtenColour } from './numbers.ts'
import { outlineOperators, type Pen } from './pen.ts'
import type { Typeface } from './typeface.ts'

/**
 * Draws a figure's outlines and texts with its left upper corner at a place; `scale` is points a pixel. Texts are
 * texts; the rim below one is drawn as outlines, so that nobody finds or hears its words twice.
 */
export function drawFigure(
  pen: Pen,
  drawn: readonly Drawn[],
  x: number,
  y: number,
  size: { readonly widthPixels: number; readonly heightPixels: number },
  scale: number,
): void {
  pen.operators(
    `q ${writtenAll(scale, 0, 0, scale, x, y)} cm ${writtenAll(0, 0, size.widthPixels, size.heightPixels)} re W n`,
  )
  let clips: Drawn['clips'] = []
  for (const one of drawn) {
    if (one.clips !== clips) {
      if (clips.length > 0) pen.operators('Q')
      if (one.clips.length > 0)
        pen.operators(`q ${one.clips.map((clip) => `${outlineOperators(clip)} W n`).join(' ')}`)
      clips = one.clips
    }
    if (one.kind === 'shape') drawShape(pen, one)
    else drawText(pen, one, size.widthPixels)
  }
  if (clips.length > 0) pen.operators('Q')
  pen.operators('Q')
}

function drawShape(pen: Pen, shape: DrawnShape): void {
  const { fill, stroke, fillOpacity, strokeOpacity } = shape
  const clear = (fill !== null && fillOpacity < 1) || (stroke !== null && strokeOpacity < 1)
  const state = [
    clear ? `q /${pen.opacity(fillOpacity, strokeOpacity)} gs` : '',
    fill === null ? '' : `${writtenColour(fill)} rg`,
    stroke === null ? '' : strokeState(stroke, shape.strokePixels, shape.dash, shape.round),
  ]
  const paint = fill === null ? 'S' : stroke === null ? 'f' : 'B'
  pen.operators(
    [...state, outlineOperators(shape.outline), paint, clear ? 'Q' : ''].filter(Boolean).join(' '),
  )
}

function strokeState(colour: string, width: number, dash: readonly number[], round: boolean): string {
  return `${writtenColour(colour)} RG ${written(width)} w [${writtenAll(...dash)}] 0 d ${round ? '1 J 1 j' : '0 J 0 j'}`
}

/** Least part of its breadth that a text is pressed to where it would run over the figure's right edge. */
const mostPressed = 0.78

function drawText(pen: Pen, text: DrawnText, roomPixels: number): void {
  const typeface = pen.faces.of[text.face]
  const free = typeface.widthPoints(text.text, text.fontPixels)
  const upright = text.matrix[0] === 1 && text.matrix[1] === 0
  const room = roomPixels - 1 - text.matrix[4]
  const press =
    upright && text.anchor === 'start' && free > room ? Math.min(1, Math.max(mostPressed, room / free)) : 1
  const width = free * press
  const before = text.anchor === 'middle' ? width / 2 : text.anchor === 'end' ? width : 0
  const [, b, c, d, e, f] = text.matrix
  const a = text.matrix[0] * press
  const [x, y] = [e - text.matrix[0] * before, f - b * before]
  if (text.ground?.fill && upright)
    pen.operators(
      `q /${pen.opacity(text.ground.fillOpacity, 1)} gs ${writtenColour(text.ground.fill)} rg ${writtenAll(x - 1, y - text.fontPixels * 0.75, width + 2, text.fontPixels)} re f Q`,
    )
  if (text.halo) {
    const outline = glyphOutlines(typeface, text.text, text.fontPixels)
    pen.operators(
      `${strokeState(text.halo.colour, text.halo.pixels, [], true)} ${outlineOperators(moved(outline, [a, b, c, d, x, y]))} S`,
    )
  }
  pen.pdf.page.fonts[typeface.font.id] ??= typeface.font.ref()
  pen.operators(
    `BT ${writtenColour(text.fill)} rg /${typeface.font.id} ${written(text.fontPixels)} Tf ${writtenAll(a, b, -c, -d, x, y)} Tm ${typeface.shown(text.text)} TJ ET`,
  )
}

const outlines = new WeakMap<Typeface, Map<number, readonly Segment[]>>()

/** The outlines of a text's letters from its start on its baseline, y downwards. */
function glyphOutlines(typeface: Typeface, text: string, fontPixels: number): Segment[] {
  const { font } = typeface.font
  let known = outlines.get(typeface)
  if (!known) {
    known = new Map()
    outlines.set(typeface, known)
  }
  const unit = fontPixels / font.unitsPerEm
  const all: Segment[] = []
  for (const { id, atEm } of typeface.glyphs(text)) {
    let outline = known.get(id)
    if (!outline) {
      outline = segmentsOf(font.getGlyph(id).path.commands)
      known.set(id, outline)
    }
    all.push(...moved(outline, [unit, 0, 0, -unit, atEm * fontPixels, 0]))
  }
  return all
}

function segmentsOf(commands: readonly { command: string; args: readonly number[] }[]): Segment[] {
  let [x, y] = [0, 0]
  return commands.map(({ command, args }): Segment => {
    const [one = 0, two = 0, three = 0, four = 0, five = 0, six = 0] = args
    if (command === 'closePath') return ['Z']
    if (command === 'moveTo' || command === 'lineTo') {
      ;[x, y] = [one, two]
      return [command === 'moveTo' ? 'M' : 'L', one, two]
    }
    if (command === 'bezierCurveTo') {
      ;[x, y] = [five, six]
      return ['C', one, two, three, four, five, six]
    }
    const third = 2 / 3
    const curve: Segment = [
      'C',
      x + third * (one - x),
      y + third * (two - y),
      three + third * (one - three),
      four + third * (two - four),
      three,
      four,
    ]
    ;[x, y] = [three, four]
    return curve
  })
}
