import type { ReportFacts } from '../document.ts'
import { written, writtenAll, writtenColour } from './numbers.ts'
import type { Pen } from './pen.ts'
import { hairline, type Sheet, styles } from './sheet.ts'

/** Head and foot of a page: what it is of, until when its data reach, how much is provisional, and its number. */
export function drawMargins(pen: Pen, sheet: Sheet, facts: ReportFacts, page: number, pages: number): void {
  const { left, width } = sheet.whole
  const right = left + width
  const style = styles.margin
  const widthOf = (text: string) => pen.faces.of[style.face].widthPoints(text, style.sizePoints)
  /** As much of a text as has room, with dots where some is left out. */
  const fitted = (text: string, room: number) => {
    if (widthOf(text) <= room) return text
    let kept = text
    while (kept.length > 1 && widthOf(`${kept} …`) > room) kept = kept.slice(0, -1)
    return `${kept.trimEnd()} …`
  }
  pen.artifact('Pagination', 'Top')
  const number = `${facts.number}, ${facts.period}`
  pen.text(number, right - widthOf(number), sheet.top - 22, style)
  pen.text(fitted(facts.site, width - widthOf(number) - 20), left, sheet.top - 22, style)
  pen.rule(left, sheet.top - 16, right, sheet.top - 16, 0.4, hairline)
  pen.artifact('Pagination', 'Bottom')
  const count = `Page ${page} of ${pages}`
  const foot = sheet.bottom + 24
  pen.rule(left, sheet.bottom + 12, right, sheet.bottom + 12, 0.4, hairline)
  pen.text(count, right - widthOf(count), foot, style)
  pen.text(
    fitted(`${facts.cutOff}. ${facts.provisionalShare}.`, width - widthOf(count) - 20),
    left,
    foot,
    style,
  )
  if (facts.watermark !== null) {
    const warned = fitted(facts.watermark, width)
    pen.text(warned, left, foot + 11, { ...style, face: 'bold' })
  }
}

/** Words across the sheet, below what stands on it: pale enough to be read through. */
export function drawWatermark(pen: Pen, sheet: Sheet, words: string): void {
  pen.artifact('Pagination')
  const typeface = pen.faces.of.bold
  const diagonal = Math.hypot(sheet.width, sheet.height)
  const size = Math.min(72, (diagonal * 0.72) / typeface.widthPoints(words, 1))
  const turn = Math.atan2(sheet.height, sheet.width)
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
  const half = typeface.widthPoints(words, size) / 2
  pen.pdf.page.fonts[typeface.font.id] ??= typeface.font.ref()
  // Up from the left foot to the right head; letters stand on the rising line.
  const [x, y] = [
    sheet.width / 2 - cos * half + sin * size * 0.3,
    sheet.height / 2 + sin * half + cos * size * 0.3,
  ]
  pen.operators(
    `BT ${writtenColour('#f1efe9')} rg /${typeface.font.id} ${written(size)} Tf ${writtenAll(cos, -sin, -sin, -cos, x, y)} Tm ${typeface.shown(words)} TJ ET`,
  )
}
