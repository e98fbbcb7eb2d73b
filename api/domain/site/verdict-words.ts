import { causes } from '../review/cause.ts'

/** What a verdict lays an odd reading on: one of the causes that are weighed, or none of them told apart. */
export const verdictCauses = [...causes, 'not told apart'] as const
export type VerdictCause = (typeof verdictCauses)[number]

/** How sure whoever found it is of the cause, the least first. */
export const verdictConfidences = ['possible', 'likely', 'very likely', 'certain enough to act'] as const
export type VerdictConfidence = (typeof verdictConfidences)[number]

/** The chance of being right that each word means; ranges touch and leave nothing out above one in three. Common practice, no published source. */
export const confidenceMeans: Readonly<Record<VerdictConfidence, string>> = {
  possible: 'right in 1 to 2 of 3 such cases (33 to 66 %)',
  likely: 'right in 2 of 3 to 9 of 10 such cases (66 to 90 %)',
  'very likely': 'right in 90 to 99 of 100 such cases',
  'certain enough to act': 'wrong in less than 1 of 100 such cases (over 99 %)',
}

/** What follows from a verdict. Each only tells people: no level changes and no reading is hidden by it. */
export const verdictEffects = [
  'flag readings',
  'replace the instrument',
  're-zero',
  'visit ordered',
  'level to be reviewed',
] as const
export type VerdictEffect = (typeof verdictEffects)[number]

export const effectMeans: Readonly<Record<VerdictEffect, string>> = {
  'flag readings': 'whoever reads them is told of this verdict',
  'replace the instrument': 'stands on the record of the point until another calibration or zero holds',
  're-zero': 'stands on the record of the point until another zero or calibration holds',
  'visit ordered': 'stands among what is due in the field round until somebody was there',
  'level to be reviewed': 'stands beside its levels and in the alerts; no level changes by it',
}

const between = '; '

/** The effects as they stand in one cell of a table, `visit ordered; re-zero`; null: none. */
export const effectsText = (effects: readonly VerdictEffect[]): string | null =>
  effects.length === 0 ? null : verdictEffects.filter((one) => effects.includes(one)).join(between)

/** The effects that a cell names; words that are none are left out (`effectFaults` tells them). */
export const effectsOf = ({ effects }: { readonly effects?: string | null }): readonly VerdictEffect[] =>
  wordsOf(effects).flatMap((word) => verdictEffects.find((one) => one === word) ?? [])

/** Words of a cell that are no effect. */
export const unknownEffects = (effects: string | null | undefined): readonly string[] =>
  wordsOf(effects).filter((word) => !(verdictEffects as readonly string[]).includes(word))

const wordsOf = (effects: string | null | undefined): readonly string[] =>
  (effects ?? '')
    .split(';')
    .map((word) => word.trim())
    .filter((word) => word !== '')

/** What comes of looking at a verdict again. */
export const verdictReviewOutcomes = ['reopened', 'upheld'] as const
export type VerdictReviewOutcome = (typeof verdictReviewOutcomes)[number]
