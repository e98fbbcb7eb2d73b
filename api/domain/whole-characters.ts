import type { Issue } from './outcome.ts'

/**
 * Whether no text in a value read from JSON has half of a pair of code units: such a one has no UTF-8, and would be kept as
 * something else than was sent. Names of properties count as texts.
 */
export const hasWholeCharacters = (value: unknown): boolean =>
  typeof value === 'string'
    ? !/\p{Surrogate}/u.test(value)
    : typeof value !== 'object' ||
      value === null ||
      Object.entries(value).every(([name, one]) => hasWholeCharacters(name) && hasWholeCharacters(one))

export const brokenCharacter: Issue = {
  code: 'character-broken',
  message:
    'A text in it has half of a character, which cannot be kept. Delete the last character and type it again.',
}
