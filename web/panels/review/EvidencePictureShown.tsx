import { createMemo } from 'solid-js'
import type { HistoryPicture } from '#domain/review/evidence.ts'
import { knownHistory } from '../../queries/known-history.ts'
import { scrubTo } from '../../state/site-clock.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { createWidth } from '../../ui/create-width.ts'
import {
  historyDiary,
  historySeries,
  historyStages,
  knownTraces,
} from '../../views/time-history/history-from-site.ts'
import type { TimeHistoryProps } from '../../views/time-history/history-props.ts'
import { TimeHistory } from '../../views/time-history/TimeHistory.tsx'
import { createAnswer } from '../create-answer.ts'

/** The readings that a line of evidence rests on, in the stretch that was looked at. */
export function EvidencePictureShown(props: { picture: HistoryPicture; leave: () => void }) {
  const [width, measure] = createWidth(700)
  const series = createMemo(() => props.picture.series.flatMap((id) => siteLookup().seriesById.get(id) ?? []))
  const asked = createAnswer(() =>
    series().length === 0
      ? null
      : knownHistory({
          // The evidence knows nothing that came later, nor does its picture.
          knownAtEpochMs: props.picture.untilEpochMs,
          fromEpochMs: props.picture.fromEpochMs,
          untilEpochMs: props.picture.untilEpochMs,
          widthPixels: Math.ceil(width() / 100) * 100,
          intervalMinutes: Math.min(...series().map(({ intervalMinutes }) => intervalMinutes)),
          series: series().map((one) => one.series),
        }),
  )
  const shown = (): TimeHistoryProps => {
    const document = siteDocument()
    const answered = asked.answer()
    const { fromEpochMs, untilEpochMs } = props.picture
    return {
      fromEpochMs,
      untilEpochMs,
      clockEpochMs: untilEpochMs,
      spanEpochMs: [fromEpochMs, untilEpochMs],
      timeZone: document?.facts.timeZone ?? 'UTC',
      series: document ? series().map((one) => historySeries(document, one)) : [],
      companions: [],
      ...(answered ? knownTraces(answered.columns, answered.question.resolution) : { traces: [] }),
      holds: [],
      stages: document ? historyStages(document) : [],
      diary: document ? historyDiary(document) : [],
      remarks: asked.remarks(),
      waiting: asked.waiting(),
    }
  }
  return (
    <section class="review-picture" aria-label="Readings behind the evidence" ref={measure}>
      <div class="buttons">
        <button type="button" onClick={() => props.leave()}>
          Close the picture
        </button>
      </div>
      <TimeHistory shown={shown} onClock={scrubTo} onWindow={() => undefined} />
    </section>
  )
}
