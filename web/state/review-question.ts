import { createSignal } from 'solid-js'
import { oddities } from '#domain/review/oddities.ts'
import type { Oddity } from '#domain/review/oddity.ts'

/** What is asked in a review: of which series, what about it is odd, and which reading by itself. */
export interface ReviewQuestion {
  /** Point/measure. */
  readonly series: string
  /** Null: what stands out most. */
  readonly oddity: Oddity | null
  /** Reading that is asked about by itself; null: none is. */
  readonly readingEpochMs: number | null
}

const [reviewQuestion, setReviewQuestion] = createSignal<ReviewQuestion | null>(null, {
  equals: (one, other) => JSON.stringify(one) === JSON.stringify(other),
})

/** Null: nothing was chosen. It is about its own series alone, whatever is selected. */
export { reviewQuestion }

export function askInReview(question: ReviewQuestion | null): void {
  setReviewQuestion(question)
}

/** As three parts of an address say it; null where no series is named. An oddity or instant that cannot be read is as if not chosen. */
export function readReviewQuestion(
  series: string | null,
  word: string | null,
  readingEpochMs: number | null,
): ReviewQuestion | null {
  if (series === null || series === '') return null
  const oddity = oddities.find((one) => one === word) ?? null
  if (oddity === 'reading' && readingEpochMs === null) return { series, oddity: null, readingEpochMs: null }
  return { series, oddity, readingEpochMs }
}
