import { formatShortInstant } from '../../ui/format-instant.ts'
import { box, type Mark } from '../marks/mark.ts'
import { type HistoryLayout, type Pane, toX } from './history-layout.ts'
import type { TimeHistoryProps } from './history-props.ts'

/**
 * Along a pane's foot: a solid strip where the readings of all its series are approved, a hollow one where those of any
 * are provisional. A pane of companions has none.
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
    .map(({ approved }) => approved ?? [])
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

interface Stretch {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

function within(one: Stretch, other: Stretch): readonly Stretch[] {
  const fromEpochMs = Math.max(one.fromEpochMs, other.fromEpochMs)
  const untilEpochMs = Math.min(one.untilEpochMs, other.untilEpochMs)
  return fromEpochMs < untilEpochMs ? [{ fromEpochMs, untilEpochMs }] : []
}
