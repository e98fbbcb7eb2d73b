import { formatShortInstant } from '../../ui/format-instant.ts'
import { box, type Mark } from '../marks/mark.ts'
import { approvalOfRow } from './approval-of-row.ts'
import { type HistoryLayout, type Pane, toX } from './history-layout.ts'
import type { HistorySeries, TimeHistoryProps } from './history-props.ts'

/**
 * Along a pane's foot: a solid strip where the readings of all its series are approved, a hollow one where those of any
 * are provisional, or may have arrived after the approval. A pane of companions has none.
 */
export function approvalMarks(props: TimeHistoryProps, layout: HistoryLayout, pane: Pane): Mark[] {
  if (pane.companion || pane.series.length === 0) return []
  const x = toX(layout, props)
  const at = pane.bottom + layout.fontPixels * 0.12
  const height = layout.fontPixels * 0.28
  const marks: Mark[] = []
  const draw = (kind: string, fromEpochMs: number, untilEpochMs: number, says: string) => {
    const from = Math.max(layout.left, x(fromEpochMs))
    const until = Math.min(layout.right, x(untilEpochMs))
    if (until > from)
      marks.push(box(kind, [from, at, until, at + height], `${says} ${when(fromEpochMs, untilEpochMs)}`))
  }
  const when = (from: number, until: number) =>
    `from ${formatShortInstant(from, props.timeZone)} to ${formatShortInstant(until, props.timeZone)}`
  const shared = pane.series
    .map((series) => lessUnseen(series.approved ?? [], unseen(series, props)))
    .reduce((one, other) => one.flatMap((a) => other.flatMap((b) => within(a, b))))
  let done = props.fromEpochMs
  for (const { fromEpochMs, untilEpochMs } of shared) {
    draw('provisional', done, fromEpochMs, 'Provisional')
    draw('approved', Math.max(done, fromEpochMs), untilEpochMs, 'Approved')
    done = Math.max(done, untilEpochMs)
  }
  draw('provisional', done, props.untilEpochMs, 'Provisional')
  return marks
}

/** Around the readings of a series that arrived after their approval, or of which that is not told. */
function unseen(series: HistorySeries, props: TimeHistoryProps): readonly Stretch[] {
  const trace = props.traces.find((one) => one.series === series.series)
  if (!trace) return []
  const half = Math.max(series.intervalMinutes, bucketMinutes[trace.resolution]) * 30_000
  return Array.from(trace.atEpochMs).flatMap((at, row) => {
    const found = approvalOfRow(series, trace, row)
    if (found !== 'arrived-after' && found !== 'not-told') return []
    return [{ fromEpochMs: at - half, untilEpochMs: at + half }]
  })
}

/** Both in order of time. */
function lessUnseen(stretches: readonly Stretch[], cuts: readonly Stretch[]): readonly Stretch[] {
  const left: Stretch[] = []
  let next = 0
  for (const { fromEpochMs, untilEpochMs } of stretches) {
    let from = fromEpochMs
    while ((cuts[next]?.untilEpochMs ?? Number.POSITIVE_INFINITY) <= from) next++
    for (let i = next; i < cuts.length; i++) {
      const cut = cuts[i] as Stretch
      if (cut.fromEpochMs >= untilEpochMs) break
      if (cut.fromEpochMs > from) left.push({ fromEpochMs: from, untilEpochMs: cut.fromEpochMs })
      from = Math.max(from, cut.untilEpochMs)
    }
    if (from < untilEpochMs) left.push({ fromEpochMs: from, untilEpochMs })
  }
  return left
}

const bucketMinutes = { raw: 0, hour: 60, day: 1440 } as const

interface Stretch {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

function within(one: Stretch, other: Stretch): readonly Stretch[] {
  const fromEpochMs = Math.max(one.fromEpochMs, other.fromEpochMs)
  const untilEpochMs = Math.min(one.untilEpochMs, other.untilEpochMs)
  return fromEpochMs < untilEpochMs ? [{ fromEpochMs, untilEpochMs }] : []
}
