import { createSignal } from 'solid-js'

/** Pages of the desk where an odd reading is judged, in the order in which they are offered. */
export const reviewPages = ['case', 'neighbours', 'compare', 'patch'] as const
export type ReviewPage = (typeof reviewPages)[number]

export const firstReviewPage: ReviewPage = 'case'

const [reviewPage, setReviewPage] = createSignal<ReviewPage>(firstReviewPage)

export { reviewPage }

export function openReviewPage(page: ReviewPage): void {
  setReviewPage(page)
}
