import type { Typefaces } from './typeface.ts'

export interface SetRun {
  readonly text: string
  readonly face: 'regular' | 'bold' | 'oblique'
  /** From the line's left edge, points. */
  readonly at: number
}

export interface SetLine {
  readonly runs: readonly SetRun[]
  readonly widthPoints: number
}

interface Atom {
  readonly text: string
  readonly face: SetRun['face']
  /** A line may end before it. */
  readonly opens: boolean
}

/**
 * Breaks words into lines no broader than the room: at spaces, after hyphens, dashes and slashes between letters;
 * a word that is broader than a whole line is broken where the room ends. No-break spaces hold. An empty text is one
 * empty line.
 */
export function breakLines(
  runs: readonly { readonly text: string; readonly face: SetRun['face'] }[],
  faces: Typefaces,
  sizePoints: number,
  roomPoints: number,
): SetLine[] {
  const width = (text: string, face: SetRun['face']) => faces.of[face].widthPoints(text, sizePoints)
  const lines: Atom[][] = [[]]
  let used = 0
  const open = () => {
    lines.push([])
    used = 0
  }
  for (const group of groupsOf(runs)) {
    const bare = group.reduce(
      (sum, { text, face }, place) => sum + width(place === group.length - 1 ? text.trimEnd() : text, face),
      0,
    )
    if (used > 0 && used + bare > roomPoints + 0.01) open()
    for (const atom of group) {
      let rest = atom.text
      while (used + width(rest.trimEnd(), atom.face) > roomPoints + 0.01) {
        const letters = [...rest]
        let fits = letters.length - 1
        while (fits > 1 && used + width(letters.slice(0, fits).join(''), atom.face) > roomPoints) fits--
        if (fits <= 1 && used > 0) {
          open()
          continue
        }
        if (letters.length <= 1) break
        lines.at(-1)?.push({ ...atom, text: letters.slice(0, Math.max(1, fits)).join('') })
        rest = letters.slice(Math.max(1, fits)).join('')
        open()
      }
      lines.at(-1)?.push({ ...atom, text: rest })
      used += width(rest, atom.face)
    }
  }
  return lines.map((atoms) => setLine(atoms, width))
}

/** Pieces that a line is never broken within, each a list of runs of one face. */
function groupsOf(runs: readonly { readonly text: string; readonly face: SetRun['face'] }[]): Atom[][] {
  const groups: Atom[][] = []
  let opens = true
  for (const { text, face } of runs)
    for (const piece of text.split(/(?<= )|(?<=\p{L}[-–—/])(?=\p{L})|(?<=\/)(?=[\p{L}\d])/u)) {
      if (piece === '') continue
      if (opens || groups.length === 0) groups.push([])
      groups.at(-1)?.push({ text: piece, face, opens })
      opens = / $|\p{L}[-–—/]$|\/$/u.test(piece)
    }
  return groups
}

function setLine(atoms: readonly Atom[], width: (text: string, face: SetRun['face']) => number): SetLine {
  const joined: { text: string; face: SetRun['face'] }[] = []
  for (const { text, face } of atoms) {
    const last = joined.at(-1)
    if (last?.face === face) last.text += text
    else joined.push({ text, face })
  }
  const last = joined.at(-1)
  if (last) last.text = last.text.trimEnd()
  let at = 0
  const runs = joined.map(({ text, face }) => {
    const run = { text, face, at }
    at += width(text, face)
    return run
  })
  return { runs, widthPoints: at }
}
