import { monthWords } from '#domain/calendar-words.ts'
import type { DiaryEntry, Stage } from '#domain/site/tables.ts'

/** A stretch or a mark along the clock's scale; `from` and `until` are shares of the span, 0 to 1. */
export interface ClockStretch {
  readonly id: string
  readonly name: string
  readonly from: number
  readonly until: number
  /** Row it is drawn in, so that stages that overlap in time do not overlap on the scale. */
  readonly row: number
}

interface Span {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

/** Share of a span at which an instant lies, held within 0 to 1. */
export function shareOfSpan(atEpochMs: number, span: Span): number {
  const length = span.untilEpochMs - span.fromEpochMs
  return length <= 0 ? 0 : Math.min(1, Math.max(0, (atEpochMs - span.fromEpochMs) / length))
}

/** Works stages as stretches in as few rows as their overlaps need. A stage without an end lasts to the end. */
export function stageStretches(stages: readonly Stage[], span: Span): readonly ClockStretch[] {
  const rowEnds: number[] = []
  return [...stages]
    .sort((left, right) => left.startsAt - right.startsAt)
    .filter(
      (stage) => stage.startsAt < span.untilEpochMs && (stage.endsAt ?? span.untilEpochMs) > span.fromEpochMs,
    )
    .map((stage) => {
      const from = shareOfSpan(stage.startsAt, span)
      const until = shareOfSpan(stage.endsAt ?? span.untilEpochMs, span)
      const free = rowEnds.findIndex((end) => end <= from)
      const row = free < 0 ? rowEnds.length : free
      rowEnds[row] = until
      return { id: stage.id, name: stage.name, from, until, row }
    })
}

/** First instants of the months within a span, with their names, for the clock's scale. UTC. */
export function monthTicks(span: Span): readonly { readonly share: number; readonly name: string }[] {
  const ticks: { share: number; name: string }[] = []
  const first = new Date(span.fromEpochMs)
  for (let step = 0; step < 600; step += 1) {
    const at = Date.UTC(first.getUTCFullYear(), first.getUTCMonth() + step, 1)
    if (at > span.untilEpochMs) break
    if (at < span.fromEpochMs) continue
    const name = monthWords[new Date(at).getUTCMonth()] ?? ''
    ticks.push({ share: shareOfSpan(at, span), name })
  }
  return ticks
}

/** Diary entries up to the end of the span, latest first. */
export function diaryWithin(diary: readonly DiaryEntry[], span: Span): readonly DiaryEntry[] {
  return diary
    .filter((entry) => entry.at >= span.fromEpochMs && entry.at <= span.untilEpochMs)
    .sort((left, right) => right.at - left.at)
}
