import { formatValue, withUnit } from '../../ui/format-value.ts'
import { label, line, type Mark } from '../marks/mark.ts'
import type { HistoryLayout, Pane } from './history-layout.ts'
import { levelValues, toX, toY } from './history-layout.ts'
import type { TimeHistoryProps } from './history-props.ts'

interface Drawn {
  readonly className: string
  readonly text: string
  readonly value: number
  readonly from: number
  readonly until: number
}

/** Trigger levels and hold points of a pane as named lines; those beyond the scale are named at its edge. */
export function levelMarks(props: TimeHistoryProps, layout: HistoryLayout, pane: Pane): Mark[] {
  const x = toX(layout, props)
  const y = toY(pane)
  const font = layout.fontPixels
  const marks: Mark[] = []
  const beyond = { above: [] as string[], below: [] as string[] }
  const taken: number[] = []
  for (const one of linesOf(props, pane)) {
    const from = Math.max(layout.left, x(one.from))
    const until = Math.min(layout.right, x(one.until))
    if (until <= from) continue
    if (one.value > pane.extent.high) beyond.above.push(one.text)
    else if (one.value < pane.extent.low) beyond.below.push(one.text)
    else {
      const at = y(one.value)
      marks.push(line(one.className, from, at, until, at))
      const textAt = at - font * 0.3 < pane.top + font * 0.8 ? at + font : at - font * 0.3
      if (taken.some((other) => Math.abs(other - textAt) < font)) continue
      taken.push(textAt)
      marks.push(label(`${one.className} name`, from + font * 0.4, textAt, one.text))
    }
  }
  if (beyond.above.length > 0)
    marks.push(
      label(
        'beyond',
        layout.right - 4,
        pane.top + font,
        `above this scale: ${beyond.above.join(', ')} ↑`,
        'end',
      ),
    )
  if (beyond.below.length > 0)
    marks.push(
      label(
        'beyond',
        layout.right - 4,
        pane.bottom - font * 0.9,
        `below this scale: ${beyond.below.join(', ')} ↓`,
        'end',
      ),
    )
  return marks
}

function linesOf(props: TimeHistoryProps, pane: Pane): Drawn[] {
  const found = new Map<string, Drawn>()
  const several = pane.series.length > 1
  for (const series of pane.series) {
    for (const level of series.levels)
      for (const value of levelValues(level)) {
        const key = `${level.level} ${value} ${level.validFromEpochMs} ${level.validUntilEpochMs}`
        if (!found.has(key))
          found.set(key, {
            className: `level level-${Math.min(level.level, 6)}`,
            text: `${level.name} ${withUnit(formatValue(value, trimmed(value, series.decimals)), pane.unit)}`,
            value,
            from: level.validFromEpochMs,
            until: level.validUntilEpochMs ?? Number.POSITIVE_INFINITY,
          })
      }
    for (const hold of props.holds.filter((one) => one.series === series.series))
      found.set(`hold ${hold.sentence}`, {
        className: 'hold',
        text: several ? `${series.name}: ${hold.sentence}` : hold.sentence,
        value: hold.value,
        from: Number.NEGATIVE_INFINITY,
        until: hold.untilEpochMs,
      })
  }
  return [...found.values()].map((one) => ({
    ...one,
    from: Math.max(one.from, props.fromEpochMs),
    until: Math.min(one.until, props.untilEpochMs),
  }))
}

/** A level is written as it was agreed, without noughts that nobody decided. */
function trimmed(value: number, decimals: number): number {
  for (let places = 0; places < decimals; places++)
    if (Math.abs(Number(value.toFixed(places)) - value) < 1e-9) return places
  return decimals
}
