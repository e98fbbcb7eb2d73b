import { type ChainedEntry, type ChainHead, chainHash, type Sha256 } from './audit-entry.ts'

/** Why an entry does not fit to those before it. */
export type BreakKind = 'altered' | 'missing' | 'inserted' | 'reordered' | 'cut-off' | 'rewritten'

/** The first place at which a chain breaks. */
export interface ChainBreak {
  readonly kind: BreakKind
  /** Number of the first entry that does not fit, or that is not there. */
  readonly number: number
  readonly sentence: string
}

/** How many of the entries, in order of their numbers, fit to each other and to what went before, and where that ends. */
export function checkChain(
  entries: readonly ChainedEntry[],
  previous: ChainHead,
  sha256: Sha256,
): { readonly fits: number; readonly head: ChainHead } {
  let head = previous
  for (const [place, { entry, hash }] of entries.entries()) {
    const fits = entry.number === head.number + 1 && hash === chainHash(head.hash, entry, sha256)
    if (!fits) return { fits: place, head }
    head = { number: entry.number, hash }
  }
  return { fits: entries.length, head }
}

/**
 * What happened where a chain breaks. `rest` begins with the first entry that does not fit and goes on as far as is
 * worth looking (a thousand); `previous` is the last one that fits. What was done to several places is told of the first.
 * Where several things could have been done (an entry altered together with its hash, one put in at the very end), `altered`.
 */
export function explainBreak(rest: readonly ChainedEntry[], previous: ChainHead, sha256: Sha256): ChainBreak {
  const [first, second] = rest
  const expected = previous.number + 1
  if (first === undefined) throw new Error('A break is explained from the entry that does not fit.')
  const fitsAs = (one: ChainedEntry, hash: string, number: number) =>
    one.hash === chainHash(hash, { ...one.entry, number }, sha256)

  if (first.entry.number < expected)
    return told(
      'inserted',
      first.entry.number,
      `Number ${first.entry.number} is there again: an entry was put in that does not belong to the record.`,
    )
  // The entry that belongs here lies further on: another one was put before it.
  const place = rest.findIndex((one, i) => i > 0 && fitsAs(one, previous.hash, expected))
  const displaced = rest[place]
  if (displaced) {
    const before = place > 1 ? rest[place - 1] : displaced
    const next = rest[place + 1]
    const goesOn = next !== undefined && fitsAs(next, displaced.hash, expected + 1)
    const isGenuine =
      !goesOn &&
      (fitsAs(first, displaced.hash, expected + 1) ||
        (before !== undefined && fitsAs(first, before.hash, expected + place)))
    return isGenuine
      ? told(
          'reordered',
          expected,
          `Entry ${expected} stands in another place: entries were put in another order.`,
        )
      : told(
          'inserted',
          expected,
          `At number ${expected} stands an entry that does not belong to the record: ${many(place)} put in before the true one.`,
        )
  }
  if (first.entry.number > expected)
    return told('missing', expected, missingSentence(expected, first.entry.number - expected))
  if (second) {
    // Numbers that were closed up over a gap: what follows fits to it under the numbers that it had.
    for (let gone = 1; gone <= rest.length + mostGone; gone++)
      if (fitsAs(second, first.hash, second.entry.number + gone))
        return told('missing', expected, missingSentence(expected, gone))
  }
  return told(
    'altered',
    expected,
    `Entry ${expected} does not follow from the one before it: it was altered or put in, or the one before it was altered together with its hash.`,
  )
}

/**
 * Whether a chain that fits in itself ends where its head, kept elsewhere, says. `hashAtHead` is the hash of the entry
 * with the head's number; null: there is none.
 */
export function compareHead(end: ChainHead, known: ChainHead, hashAtHead: string | null): ChainBreak | null {
  if (end.number < known.number)
    return told(
      'cut-off',
      end.number + 1,
      `The record ends with entry ${end.number}, but it had ${known.number} entries: its end was cut off, or an older data file was put back.`,
    )
  // Noted when nothing was in it yet: any chain fits.
  if (known.number === 0 || hashAtHead === known.hash) return null
  return told(
    'rewritten',
    known.number,
    `Entry ${known.number} has another hash than was noted outside the data file: the record was written anew, from this entry or an earlier one on.`,
  )
}

const mostGone = 1000

const told = (kind: BreakKind, number: number, sentence: string): ChainBreak => ({ kind, number, sentence })

const many = (count: number): string => (count === 1 ? 'it was' : `it and ${count - 1} more were`)

const missingSentence = (from: number, count: number): string =>
  count === 1
    ? `Entry ${from} is missing: it was taken out.`
    : `Entries ${from} to ${from + count - 1} are missing: they were taken out.`
