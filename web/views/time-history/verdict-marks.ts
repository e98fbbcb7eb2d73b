import type { VerdictKind } from '#domain/site/vocabulary.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { label, type Mark, path } from '../marks/mark.ts'
import { type HistoryLayout, type Pane, toX } from './history-layout.ts'
import type { HistorySeries, TimeHistoryProps } from './history-props.ts'
import { fitted } from './stage-marks.ts'

/**
 * What people found about stretches of readings, as a band at the head of a pane: a whole bar for accepted, a broken one
 * for doubtful, a row of crosses for rejected, with the word where there is room. The readings below stay drawn.
 */
export function verdictMarks(
  props: TimeHistoryProps,
  layout: HistoryLayout,
  pane: Pane,
  series: readonly HistorySeries[],
): Mark[] {
  const x = toX(layout, props)
  const font = layout.fontPixels
  const top = pane.top + font * 0.25
  const height = font * 0.4
  return series.flatMap((one) =>
    one.verdicts.flatMap((verdict): Mark[] => {
      const from = Math.max(layout.left, x(verdict.fromAt))
      const until = Math.min(layout.right, x(verdict.untilAt ?? props.untilEpochMs))
      if (until <= layout.left || from >= layout.right) return []
      const wide = Math.max(until, from + height)
      const when = `from ${formatShortInstant(verdict.fromAt, props.timeZone)}${
        verdict.untilAt === null ? '' : ` to ${formatShortInstant(verdict.untilAt, props.timeZone)}`
      }`
      const says = `${one.name} ${verdict.verdict} ${when} by ${verdict.author}: ${verdict.reason}`
      const text = fitted(`${one.name} ${verdict.verdict}`, wide - from, font * 0.92)
      return [
        path(`verdict ${verdict.verdict}`, shapes[verdict.verdict](from, wide, top, height), says),
        ...(text ? [label('verdict-name', from, top + height + font, text)] : []),
      ]
    }),
  )
}

type Shape = (from: number, until: number, top: number, height: number) => string

const bar: Shape = (from, until, top, height) =>
  `M${cut(from)} ${cut(top)}H${cut(until)}V${cut(top + height)}H${cut(from)}Z`

/** Pieces as long as a step, whatever the length of the whole. */
const inSteps =
  (piece: Shape, share: number): Shape =>
  (from, until, top, height) => {
    const step = height * 2
    let d = ''
    for (let at = from; at < until; at += step)
      d += piece(at, Math.min(at + step * share, until), top, height)
    return d
  }

const cross: Shape = (from, until, top, height) =>
  `M${cut(from)} ${cut(top)}L${cut(until)} ${cut(top + height)}M${cut(from)} ${cut(top + height)}L${cut(until)} ${cut(top)}`

const shapes: Readonly<Record<VerdictKind, Shape>> = {
  accepted: bar,
  doubtful: inSteps(bar, 0.6),
  rejected: inSteps(cross, 0.5),
}

/** The shape of a verdict by itself, for where its word stands: a path in a box of the given size. */
export const verdictShape = (verdict: VerdictKind, width: number, height: number): string =>
  shapes[verdict](1, width - 1, 1, height - 1)

const cut = (pixels: number) => pixels.toFixed(1)
