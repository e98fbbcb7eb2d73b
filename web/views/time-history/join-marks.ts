import { label, line, type Mark } from '../marks/mark.ts'
import { type HistoryLayout, type Pane, toX } from './history-layout.ts'
import type { TimeHistoryProps } from './history-props.ts'

/** Where a series takes over from an earlier one: an upright line with what was joined and by how much. */
export function joinMarks(props: TimeHistoryProps, layout: HistoryLayout, pane: Pane): Mark[] {
  const x = toX(layout, props)
  const font = layout.fontPixels
  const joins = pane.series.flatMap(({ joined = [] }) => joined)
  return joins
    .filter(({ untilEpochMs }) => untilEpochMs >= props.fromEpochMs && untilEpochMs <= props.untilEpochMs)
    .flatMap(({ untilEpochMs, label: text }, place) => {
      const at = x(untilEpochMs)
      // Beside the line where there is more room.
      const before = at > (layout.left + layout.right) / 2
      return [
        line('join', at, pane.top, at, pane.bottom),
        label(
          'join',
          at + (before ? -0.4 : 0.4) * font,
          pane.top + font * (1.1 + 1.15 * place),
          text,
          before ? 'end' : 'start',
        ),
      ]
    })
}
