import { formatValue, withUnit } from '../../ui/format-value.ts'
import { box, line, type Mark } from '../marks/mark.ts'
import { decimalsApart } from '../marks/value-ticks.ts'
import { type HistoryLayout, type Pane, toX, toY } from './history-layout.ts'
import type { TimeHistoryProps } from './history-props.ts'

/** A hatched band of what the design expects stage by stage, with an upright where it switches to another stage. */
export function envelopeMarks(props: TimeHistoryProps, layout: HistoryLayout, pane: Pane): Mark[] {
  const [x, y] = [toX(layout, props), toY(pane)]
  return pane.series.flatMap(({ envelope = [], unit }) =>
    envelope.flatMap(({ fromEpochMs, untilEpochMs, low, high, stage }, place) => {
      const [from, until] = [
        Math.max(props.fromEpochMs, fromEpochMs),
        Math.min(props.untilEpochMs, untilEpochMs ?? props.untilEpochMs),
      ]
      const [base, top] = [y(Math.max(low, pane.extent.low)), y(Math.min(high, pane.extent.high))]
      if (from >= until || low > pane.extent.high || high < pane.extent.low) return []
      const decimals = decimalsApart([low, high])
      const text = (value: number) => formatValue(value, decimals)
      const says = `Expected during and after “${stage}”: ${text(low)} to ${withUnit(text(high), unit)}`
      const switches = envelope[place - 1]?.stage !== stage && fromEpochMs >= props.fromEpochMs
      return [
        box('expected-band', [x(from), top, x(until), base], says),
        ...(switches ? [line('expected-switch', x(from), pane.top, x(from), pane.bottom)] : []),
      ]
    }),
  )
}
