import { unitSymbol } from '#domain/units.ts'
import { formatValue } from '../../ui/format-value.ts'
import { box, label, line, type Mark } from '../marks/mark.ts'
import { timeTicks } from '../marks/time-ticks.ts'
import { type Extent, stepDecimals, tickStep, valueTicks } from '../marks/value-ticks.ts'
import type { FigureLayout } from './figure-layout.ts'
import type { FigureAxis, FigureProps } from './figure-props.ts'

interface Tick {
  readonly value: number
  readonly text: string
  readonly strong: boolean
}

/** Pane, rules, ticks and names of both axes. */
export function axisMarks(props: FigureProps, layout: FigureLayout): Mark[] {
  const { left, right, top, bottom, fontPixels: font } = layout
  const marks: Mark[] = [box('pane', [left, top, right, bottom])]
  for (const { value, text, strong } of ticksOf(props.y, layout.ys, (bottom - top) / (font * 3), props)) {
    const at = layout.y(value)
    if (at === null) continue
    marks.push(line(strong ? 'rule zero' : 'rule', left, at, right, at))
    marks.push(label('tick', left - font * 0.4, at + font * 0.35, text, 'end'))
  }
  for (const { value, text, strong } of ticksOf(props.x, layout.xs, (right - left) / (font * 6), props)) {
    const at = layout.x(value)
    if (at === null) continue
    marks.push(line(strong ? 'rule zero' : 'rule', at, top, at, bottom))
    marks.push(label('tick', at, bottom + font * 1.3, text, 'middle'))
  }
  marks.push(
    label('axis-name', (left + right) / 2, bottom + font * 2.6, nameOf(props.x), 'middle'),
    label('axis-name', 2, top - font * 0.5, nameOf(props.y)),
  )
  return marks
}

/** Name and unit of an axis as they stand beside it. */
export const nameOf = ({ name, unit }: FigureAxis): string =>
  unit === '' ? name : `${name}, ${unitSymbol(unit)}`

function ticksOf(axis: FigureAxis, extent: Extent, room: number, { timeZone }: FigureProps): Tick[] {
  const most = Math.max(2, room)
  if (axis.scale === 'instant')
    return timeTicks(extent.low, extent.high, most, timeZone).map(({ atEpochMs, text, strong }) => ({
      value: atEpochMs,
      text,
      strong,
    }))
  if (axis.scale === 'decades') return decadeTicks(extent, most)
  const decimals = stepDecimals(tickStep(extent, most))
  return valueTicks(extent, most).map((value) => ({
    value,
    text: formatValue(value, decimals),
    strong: value === 0,
  }))
}

/** Powers of ten, with 2 and 5 between them where there is room. */
function decadeTicks(extent: Extent, most: number): Tick[] {
  const digits = (extent.high - extent.low) * 3 <= most ? [1, 2, 5] : [1]
  const ticks: Tick[] = []
  for (let power = Math.floor(extent.low); power <= extent.high; power++)
    for (const digit of digits) {
      const at = power + Math.log10(digit)
      if (at < extent.low || at > extent.high) continue
      const value = digit * 10 ** power
      ticks.push({ value, text: formatValue(value, Math.max(0, -power)), strong: digit === 1 })
    }
  return ticks
}
