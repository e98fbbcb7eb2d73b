import { marksOf } from '#domain/flags/reading-checks.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { type Mark, path } from '../marks/mark.ts'
import { type HistoryLayout, type Pane, toX, toY } from './history-layout.ts'
import type { HistorySeries, HistoryTrace, TimeHistoryProps } from './history-props.ts'
import { rowNotes } from './history-readout.ts'

/**
 * What the automatic checks marked, by shape: an open triangle over a reading that is suspect, a cross through one that
 * fails. Where many stand closer than a shape is wide one stands for them, a cross before a triangle; the table beside
 * the drawing has them all.
 */
export function checkMarks(
  props: TimeHistoryProps,
  layout: HistoryLayout,
  pane: Pane,
  series: HistorySeries,
  trace: HistoryTrace,
): Mark[] {
  const x = toX(layout, props)
  const y = toY(pane)
  const half = layout.fontPixels * 0.36
  const taken = new Set<number>()
  const marks: Mark[] = []
  const draw = (fails: boolean) => {
    for (let row = 0; row < trace.atEpochMs.length; row++) {
      const bits = trace.flags[row] ?? 0
      const value = trace.value[row] ?? Number.NaN
      if (bits === 0 || !Number.isFinite(value) || isFailing(bits) !== fails) continue
      const atEpochMs = trace.atEpochMs[row] as number
      if (atEpochMs < props.fromEpochMs || atEpochMs > props.untilEpochMs) continue
      const across = x(atEpochMs)
      const place = Math.floor(across / (half * 2.4))
      if (taken.has(place)) continue
      taken.add(place)
      const says = `${formatInstant(atEpochMs, props.timeZone)}, ${series.name}: ${rowNotes(series, trace, row).join('; ')}`
      marks.push(
        fails
          ? path('check-fails', crossAt(across, y(value), half), says)
          : path('check-suspect', triangleOver(across, y(value), half), says),
      )
    }
  }
  draw(true)
  draw(false)
  return marks
}

const isFailing = (bits: number): boolean => marksOf(bits)[0]?.fails === true

const crossAt = (x: number, y: number, half: number) =>
  `M${cut(x - half)} ${cut(y - half)}L${cut(x + half)} ${cut(y + half)}M${cut(x - half)} ${cut(y + half)}L${cut(x + half)} ${cut(y - half)}`

const triangleOver = (x: number, y: number, half: number) =>
  `M${cut(x)} ${cut(y - half * 1.2)}L${cut(x - half)} ${cut(y - half * 3)}H${cut(x + half)}Z`

const cut = (pixels: number) => pixels.toFixed(1)
