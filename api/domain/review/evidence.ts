import type { Cause } from './cause.ts'
import type { Oddity } from './oddity.ts'
import type { ReviewCase } from './review-case.ts'

/** A figure that evidence rests on, with its 95 % interval where one can be given. */
export interface EvidenceFigure {
  readonly value: number
  readonly low: number | null
  readonly high: number | null
  readonly unit: string
}

/** Readings over time of these series in this stretch. */
export interface HistoryPicture {
  readonly kind: 'history'
  readonly series: readonly string[]
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

/** How a logger does among the others: on the page of the network. */
export interface NetworkPicture {
  readonly kind: 'network'
  readonly logger: string
}

/** Where the evidence can be seen. */
export type EvidencePicture = HistoryPicture | NetworkPicture

/** One line of the table: what was found that speaks for or against a cause, or what was looked for and is not there. */
export interface Evidence {
  /** Id of the rule that gave it. */
  readonly rule: string
  readonly cause: Cause
  readonly stands: 'for' | 'against' | 'missing'
  /**
   * How strongly it speaks, in decibans: ten times the logarithm of how many times likelier this is found when the
   * cause is the one than when it is not. 0 for what is missing; the sign is that of `stands`.
   */
  readonly decibans: number
  readonly sentence: string
  readonly figure: EvidenceFigure | null
  readonly picture: EvidencePicture | null
}

/** A way to look at a case. Its reason and source stand beside what it says. */
export interface ReviewRule {
  readonly id: string
  readonly title: string
  /** Of which oddities it tells the cause. */
  readonly tells: readonly Oddity[]
  /** Why what it finds tells causes apart. */
  readonly reason: string
  /** Published source; null: common practice, no published source. */
  readonly source: string | null
  readonly weigh: (reviewed: ReviewCase) => readonly Evidence[]
}

/** Evidence that speaks for a cause (decibans above 0) or against it. */
export const speaks = (
  rule: string,
  cause: Cause,
  decibans: number,
  sentence: string,
  seen: { readonly figure?: EvidenceFigure; readonly picture?: EvidencePicture } = {},
): Evidence => ({
  rule,
  cause,
  stands: decibans > 0 ? 'for' : 'against',
  decibans,
  sentence,
  figure: seen.figure ?? null,
  picture: seen.picture ?? null,
})

/** Something that would have told, and is not there. */
export const lacks = (
  rule: string,
  cause: Cause,
  sentence: string,
  picture: EvidencePicture | null = null,
): Evidence => ({
  rule,
  cause,
  stands: 'missing',
  decibans: 0,
  sentence,
  figure: null,
  picture,
})
