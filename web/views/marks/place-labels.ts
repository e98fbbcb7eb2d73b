import { type Anchor, box, label, type Mark, textWidth } from './mark.ts'

/** A text that wants to stand beside something, and how much it matters. */
export interface WantedLabel {
  readonly x: number
  readonly y: number
  readonly text: string
  readonly className: string
  /** Horizontal distance from what it names. */
  readonly clearPixels: number
  /** Higher is placed first. */
  readonly weight: number
}

type Box = readonly [left: number, top: number, right: number, bottom: number]

/**
 * Sets texts beside their places, right, left, above or below, without one over another. Those for which there
 * is no room are left out: the table says them. `taken` are boxes that nothing may cover.
 */
export function placeLabels(
  wanted: readonly WantedLabel[],
  fontPixels: number,
  bounds: Box,
  taken: readonly Box[] = [],
): Mark[] {
  const used: Box[] = [...taken]
  const marks: Mark[] = []
  const order = [...wanted].sort((left, right) => right.weight - left.weight)
  for (const one of order) {
    const width = textWidth(one.text, fontPixels)
    const rise = one.clearPixels + fontPixels * 0.8
    const places: [number, number, Anchor][] = [
      [one.x + one.clearPixels, one.y, 'start'],
      [one.x - one.clearPixels, one.y, 'end'],
      [one.x, one.y - rise, 'middle'],
      [one.x, one.y + rise, 'middle'],
    ]
    for (const [x, y, anchor] of places) {
      const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2
      const room: Box = [left, y - fontPixels * 0.55, left + width, y + fontPixels * 0.55]
      if (room[0] < bounds[0] || room[1] < bounds[1] || room[2] > bounds[2] || room[3] > bounds[3]) continue
      if (used.some((other) => overlap(room, other))) continue
      used.push(room)
      // Between words a halo leaves gaps: a line through one reads as a minus before the number.
      if (/\s[−\d]/.test(one.text)) {
        const inset = fontPixels * 0.35
        marks.push(box('text-ground', [left + 2, y - inset, left + width - 4, y + inset]))
      }
      marks.push(label(one.className, x, y + fontPixels * 0.35, one.text, anchor))
      break
    }
  }
  return marks
}

const overlap = (one: Box, other: Box) =>
  one[0] < other[2] && other[0] < one[2] && one[1] < other[3] && other[1] < one[3]
