import type { Standing } from '../ui/state-scale.ts'
import type { GridPoint } from './section-line.ts'

/** Corners of a line, each easting and northing; none where there are fewer than two. */
export function readLine(words: readonly string[]): readonly GridPoint[] {
  const corners = words.flatMap((word) => {
    const [eastingMetres, northingMetres] = word.split(',').map(Number)
    if (eastingMetres === undefined || northingMetres === undefined) return []
    return Number.isFinite(eastingMetres + northingMetres) ? { eastingMetres, northingMetres } : []
  })
  return corners.length >= 2 ? corners : []
}

/** A number from 1 on; null where it is none. */
export function readCount(text: string | null): number | null {
  return text !== null && /^[1-9]\d{0,8}$/.test(text) ? Number(text) : null
}

/** Epoch milliseconds; null where it is no instant. */
export function readInstant(text: string | null): number | null {
  const atEpochMs = Date.parse(text ?? '')
  return Number.isFinite(atEpochMs) ? atEpochMs : null
}

/** Whether a word is a state of a point. */
export const isStanding = (word: string): word is Standing =>
  word === 'late' ||
  word === 'out-of-use' ||
  word === 'no-level' ||
  word === 'within' ||
  /^level-[1-6]$/.test(word)

/** Whether a word is one of a list. */
export const isOneOf =
  <T extends string>(list: readonly T[]) =>
  (word: string): word is T =>
    list.some((one) => one === word)
