import type { Words } from './document.ts'

const noBreak = '\u00a0'
// A number with its unit or sign; the month and year of a date; the number of a table, figure or level.
const together = [
  /(?<=\d) (?=(?:mm|m|km|kPa|MPa|kN|Hz|s|min|h|d|V|°C|%|‰|µε|mrad|rad|L|ppm|dBm)(?![\p{L}\d]))/gu,
  /(?<=\d) (?=(?:January|February|March|April|May|June|July|August|September|October|November|December|Jan|Feb|Mar|Apr|Jun|Jul|Aug|Sep|Oct|Nov|Dec)\b)/g,
  /(?<=\b(?:Table|Figure|Level|level|no\.|chainage|page)) (?=\d)/g,
  /(?<=[±≤≥<>≈]) (?=[−\d])/g,
  /(?<=\d) (?=[±≤≥≈])/g,
]

/** The same words with spaces that no line is broken at between a number and what it belongs to. */
export function keepUnits(text: string): string {
  return together.reduce((kept, places) => kept.replace(places, noBreak), text)
}

/** Runs of words, each with its weight, numbers kept with their units. */
export function runsOf(words: Words): readonly { readonly text: string; readonly strong: boolean }[] {
  return (typeof words === 'string' ? [words] : words).map((run) =>
    typeof run === 'string'
      ? { text: keepUnits(run), strong: false }
      : { text: keepUnits(run.strong), strong: true },
  )
}

export const plainWords = (words: Words): string =>
  runsOf(words)
    .map(({ text }) => text)
    .join('')

/** Digits before the decimal point, with the sign before them; null: the text is no number. */
export const beforePoint = (text: string): string | null =>
  /^[^\p{L}\d]*\d[\d\u2009\u202f\u00a0,]*(?=\D|$)/u.exec(text)?.[0].replace(/[\u2009\u202f\u00a0]+$/u, '') ??
  null

/** Words that others follow: with a full stop where they end without one. */
export const asSentence = (text: string): string => (/[.!?:…]$/.test(text) || text === '' ? text : `${text}.`)
