import { formatShortInstant } from '../../ui/format-instant.ts'
import { box, label, line, type Mark, path, textWidth } from '../marks/mark.ts'
import type { HistoryLayout } from './history-layout.ts'
import { lanesOf, toX } from './history-layout.ts'
import type { TimeHistoryProps } from './history-props.ts'

/** Works stages as bands above the panes, their starts as faint lines through them, and diary ticks. */
export function stageMarks(props: TimeHistoryProps, layout: HistoryLayout): Mark[] {
  const x = toX(layout, props)
  const font = layout.fontPixels
  const { laneOf } = lanesOf(props.stages)
  const marks: Mark[] = []
  props.stages.forEach((stage, place) => {
    const lane = laneOf[place] ?? 0
    const from = Math.max(layout.left, x(stage.fromEpochMs))
    const until = Math.min(layout.right, x(stage.untilEpochMs ?? props.untilEpochMs))
    if (until <= layout.left || from >= layout.right) return
    if (stage.fromEpochMs > props.fromEpochMs)
      for (const pane of layout.panes) marks.push(line('stage-start', from, pane.top, from, pane.bottom))
    if (lane >= layout.stageLanes) return
    const top = font * 2 + lane * font * 1.5
    const when = `${stage.name}: from ${formatShortInstant(stage.fromEpochMs, props.timeZone)}${
      stage.untilEpochMs === null ? '' : ` to ${formatShortInstant(stage.untilEpochMs, props.timeZone)}`
    }`
    marks.push(box('stage', [from, top, Math.max(until, from + 2), top + font * 1.35], when))
    const text = fitted(stage.name, until - from - font * 0.6, font * 0.92)
    if (text) marks.push(label('stage-name', from + font * 0.3, top + font, text))
  })
  const foot = layout.top - font * 0.1
  for (const entry of props.diary) {
    const at = x(entry.atEpochMs)
    if (at < layout.left || at > layout.right) continue
    const half = font * 0.32
    marks.push(
      path(
        'diary',
        `M${(at - half).toFixed(1)} ${(foot - half * 2).toFixed(1)}h${(half * 2).toFixed(1)}L${at.toFixed(1)} ${foot.toFixed(1)}Z`,
        `Diary, ${formatShortInstant(entry.atEpochMs, props.timeZone)}: ${entry.text}`,
      ),
    )
  }
  return marks
}

/** As much of a text as there is room for, at a word's end; empty when not even the first fits. */
export function fitted(text: string, roomPixels: number, fontPixels: number): string {
  if (textWidth(text, fontPixels) <= roomPixels) return text
  let kept = ''
  for (const word of text.split(' ')) {
    const longer = kept ? `${kept} ${word}` : word
    if (textWidth(`${longer} …`, fontPixels) > roomPixels) break
    kept = longer
  }
  return kept ? `${kept} …` : ''
}
