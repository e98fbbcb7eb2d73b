import { createMemo, createRoot, createSignal } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { askInReview, reviewQuestion } from './review-question.ts'
import { selectedSeries } from './selection.ts'
import { clockEpochMs } from './site-clock.ts'

/** Lengths of the stretch before the clock that may be looked at, days. */
export const reviewStretches = [14, 30, 60, 120] as const

const [chosenDays, setChosenDays] = createSignal<number | null>(null)

/** Null: as long as suits how often the series is read. */
export { chosenDays as chosenReviewDays }

/** Of what is selected, the series that is reviewed; null: nothing is selected. */
export const reviewedSeries = createRoot(() =>
  createMemo(
    (): Series | null =>
      selectedSeries().find(({ id }) => id === reviewQuestion()?.series) ?? selectedSeries()[0] ?? null,
  ),
)

/** What is asked of the series reviewed; null: nothing yet, or it is about another one. */
export const questionOfReviewed = () => {
  const question = reviewQuestion()
  return question && question.series === reviewedSeries()?.id ? question : null
}

export function chooseReviewedSeries(id: string): void {
  if (reviewQuestion()?.series !== id) askInReview({ series: id, oddity: null, readingEpochMs: null })
}

export function chooseReviewDays(days: number | null): void {
  setChosenDays(reviewStretches.find((one) => one === days) ?? null)
}

/** Read seldom, a series needs longer for as many readings. */
export const reviewDays = (): number =>
  chosenDays() ?? ((reviewedSeries()?.intervalMinutes ?? 0) > 1440 ? 120 : 60)

/** The days before the clock that are looked at; null before the clock is known. */
export const reviewStretch = createRoot(() =>
  createMemo(
    (): { readonly fromEpochMs: number; readonly asOfEpochMs: number } | null => {
      const at = clockEpochMs()
      if (at === null) return null
      // Whole hours: a clock that runs asks no more often.
      const asOfEpochMs = Math.floor(at / 3_600_000) * 3_600_000
      return { fromEpochMs: asOfEpochMs - reviewDays() * 86_400_000, asOfEpochMs }
    },
    null,
    {
      equals: (left, right) =>
        left?.fromEpochMs === right?.fromEpochMs && left?.asOfEpochMs === right?.asOfEpochMs,
    },
  ),
)
