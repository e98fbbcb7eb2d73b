import { createSignal } from 'solid-js'
import { mostOdd } from '#domain/review/odd-reading.ts'
import type { Oddity } from '#domain/review/oddity.ts'
import type { ReviewCase } from '#domain/review/review-case.ts'
import { askInReview } from '../../state/review-question.ts'
import { questionOfReviewed, reviewedSeries } from '../../state/reviewed-series.ts'
import { sync } from '../../ui/sync.ts'
import type { HistoryStretch } from '../../views/time-history/history-props.ts'
import { createSingle } from './create-single.ts'

/** What is asked in the review, as the address has it; of a single reading also what was read there. */
export function createAskedReading() {
  const single = createSingle()
  const [choosing, setChoosing] = createSignal(false)
  const wantedEpochMs = () => questionOfReviewed()?.readingEpochMs ?? null
  const ask = (oddity: Oddity | null, readingEpochMs: number | null) => {
    const series = reviewedSeries()?.id
    if (series !== undefined) askInReview({ series, oddity, readingEpochMs })
  }
  const choose = (atEpochMs: number | null) => {
    setChoosing(false)
    ask(atEpochMs === null ? null : 'reading', atEpochMs)
  }
  return {
    oddity: () => questionOfReviewed()?.oddity ?? null,
    askOddity: (oddity: Oddity) => ask(oddity, wantedEpochMs()),
    /** The reading asked about, once it is looked up; null: none is. */
    single: () => (single.asked()?.atEpochMs === wantedEpochMs() ? single.asked() : null),
    trouble: single.trouble,
    choosing,
    setChoosing,
    choose,
    /** Of the readings within a stretch the one that stands off most. */
    chooseWithin(reviewed: ReviewCase | null, { fromEpochMs, untilEpochMs }: HistoryStretch) {
      const within = reviewed
        ? mostOdd(reviewed.subject, reviewed.resolution ?? 0, Number.POSITIVE_INFINITY, 0).find(
            ({ atEpochMs }) => fromEpochMs <= atEpochMs && atEpochMs < untilEpochMs,
          )
        : undefined
      if (within) choose(within.atEpochMs)
      else setChoosing(false)
    },
    /** Looks up what was read at the reading asked about, as soon as the readings around it are known. */
    follow(reviewed: () => ReviewCase | null) {
      sync(
        () => [reviewed(), wantedEpochMs(), reviewedSeries()] as const,
        ([known, wanted, series]) => {
          if (wanted === null) return single.forget()
          if (!known || !series || known.subject.series !== series.id) return
          if (single.asked()?.atEpochMs === wanted) return
          const at = known.subject.atEpochMs.indexOf(wanted)
          if (at >= 0) single.choose(series, wanted, known.subject.atEpochMs[at - 1] ?? null)
        },
      )
      sync(
        () => reviewedSeries()?.id,
        () => {
          setChoosing(false)
          single.forget()
        },
      )
    },
  }
}
