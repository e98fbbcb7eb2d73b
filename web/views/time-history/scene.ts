import { formatInstant, formatOffset } from '../../ui/format-instant.ts'
import { formatValue } from '../../ui/format-value.ts'
import { box, dot, group, label, line, type Mark, path, textWidth } from '../marks/mark.ts'
import { timeTicks } from '../marks/time-ticks.ts'
import { stepDecimals, tickStep, valueTicks } from '../marks/value-ticks.ts'
import { approvalMarks } from './approval-marks.ts'
import { checkMarks } from './check-marks.ts'
import { envelopeMarks } from './envelope-marks.ts'
import { expectedMarks } from './expected-marks.ts'
import { type HistoryLayout, layOutHistory, type Pane, type Size, toX, toY } from './history-layout.ts'
import type { HistorySeries, HistoryTrace, TimeHistoryProps } from './history-props.ts'
import { readHistory } from './history-readout.ts'
import { joinMarks } from './join-marks.ts'
import { joinedTraces } from './joined-history.ts'
import { levelMarks } from './level-marks.ts'
import { stageMarks } from './stage-marks.ts'
import { barMarks, laterMarks, railMarks, styleOf, traceMarks } from './trace-marks.ts'
import { verdictMarks } from './verdict-marks.ts'

export interface HistoryScene {
  readonly layout: HistoryLayout
  readonly marks: readonly Mark[]
}

/** The whole drawing of readings over time: numbers in, marks out. */
export function timeHistoryScene(props: TimeHistoryProps, size: Size): HistoryScene {
  const layout = layOutHistory(props, size)
  return {
    layout,
    marks: [
      group('grid', gridMarks(props, layout)),
      group('stages', stageMarks(props, layout)),
      ...layout.panes.map((pane) => paneMarks(props, layout, pane)),
      group('proposed', proposedMarks(props, layout)),
      group('clock', clockMarks(props, layout)),
      group('messages', emptyMarks(props, layout)),
    ],
  }
}

function gridMarks(props: TimeHistoryProps, layout: HistoryLayout): Mark[] {
  const x = toX(layout, props)
  const font = layout.fontPixels
  const most = (layout.right - layout.left) / (font * 5)
  const marks: Mark[] = []
  for (const tick of timeTicks(props.fromEpochMs, props.untilEpochMs, most, props.timeZone)) {
    const at = x(tick.atEpochMs)
    for (const pane of layout.panes)
      marks.push(line(tick.strong ? 'rule strong' : 'rule', at, pane.top, at, pane.bottom))
    marks.push(
      label(tick.strong ? 'tick strong' : 'tick', at, layout.bottom + font * 1.3, tick.text, 'middle'),
    )
  }
  const offsets = [
    ...new Set(
      [props.fromEpochMs, (props.fromEpochMs + props.untilEpochMs) / 2, props.untilEpochMs].map((at) =>
        formatOffset(at, props.timeZone),
      ),
    ),
  ]
  marks.push(
    label(
      'axis-name',
      layout.left,
      layout.bottom + font * 2.7,
      `Site time, ${props.timeZone} (${offsets.join(', later ')})`,
    ),
  )
  return marks
}

function paneMarks(props: TimeHistoryProps, layout: HistoryLayout, pane: Pane): Mark {
  const y = toY(pane)
  const font = layout.fontPixels
  const count = Math.max(2, (pane.bottom - pane.top) / (font * 2.6))
  const decimals = stepDecimals(tickStep(pane.extent, count))
  const marks: Mark[] = [box('pane', [layout.left, pane.top, layout.right, pane.bottom])]
  for (const value of valueTicks(pane.extent, count)) {
    const at = y(value)
    if (at > pane.bottom + 0.5 || at < pane.top - 0.5) continue
    marks.push(line(value === 0 ? 'rule zero' : 'rule', layout.left, at, layout.right, at))
    marks.push(label('tick', layout.left - font * 0.4, at + font * 0.35, formatValue(value, decimals), 'end'))
  }
  const unit = pane.unit === '' ? '' : `, ${pane.unitText}`
  marks.push(label('pane-name', layout.left, pane.top - font * 0.45, `${pane.heading}${unit}`))
  if (pane.companion)
    marks.push(label('pane-source', layout.right, pane.top - font * 0.45, pane.series[0]?.name ?? '', 'end'))
  if (!pane.companion) marks.push(...envelopeMarks(props, layout, pane))
  const levels = levelMarks(props, layout, pane)
  marks.push(...levels.filter((mark) => mark.tag === 'line'))
  const drawn: (readonly [HistorySeries, HistoryTrace])[] = []
  const earlier: (readonly [HistorySeries, HistoryTrace])[] = []
  const lines: Mark[] = []
  pane.series.forEach((series) => {
    const style = styleOf(props, pane, series)
    for (const { joined, trace } of joinedTraces(series, props.traces)) {
      lines.push(...traceMarks(props, layout, pane, joined.series, trace, `${style} joined`))
      earlier.push([joined.series, trace])
    }
    const later = props.later?.find((one) => one.series === series.series)
    if (later && pane.drawnAs !== 'bars') lines.push(...laterMarks(props, layout, pane, series, later, style))
    const trace = props.traces.find((one) => one.series === series.series)
    if (!trace) return
    drawn.push([series, trace])
    lines.push(
      ...(pane.drawnAs === 'bars'
        ? barMarks(props, layout, pane, trace, style)
        : traceMarks(props, layout, pane, series, trace, style)),
    )
  })
  const clip = `url(#pane-${Math.round(pane.top)})`
  marks.push({
    tag: 'clipPath',
    attributes: { id: `pane-${Math.round(pane.top)}` },
    children: [box('', [layout.left, pane.top, layout.right, pane.bottom])],
  })
  const all = [...earlier, ...drawn]
  const checked = all.flatMap(([series, trace]) =>
    pane.drawnAs === 'bars' ? [] : checkMarks(props, layout, pane, series, trace),
  )
  const found = verdictMarks(
    props,
    layout,
    pane,
    all.map(([series]) => series),
  )
  marks.push(
    group('lines', [...lines, ...railMarks(props, layout, pane, all), ...checked, ...found], {
      'clip-path': clip,
    }),
  )
  marks.push(...approvalMarks(props, layout, pane))
  marks.push(...joinMarks(props, layout, pane), ...expectedMarks(props, layout, pane))
  // Names stand over the readings, which would run through them.
  marks.push(...levels.filter((mark) => mark.tag === 'text'))
  if (!pane.companion) marks.push(...endNames(props, layout, pane, drawn))
  return group('pane-marks', marks)
}

/** Names of the lines at their ends, kept apart, where there is room beside the pane. */
function endNames(
  props: TimeHistoryProps,
  layout: HistoryLayout,
  pane: Pane,
  drawn: readonly (readonly [HistorySeries, HistoryTrace])[],
): Mark[] {
  const font = layout.fontPixels
  const room = layout.widthPixels - layout.right
  if (room < font * 3) return []
  const y = toY(pane)
  const names = drawn.flatMap(([series, trace]) => {
    const readout = readHistory(series, trace, props.untilEpochMs)
    if (readout.value === null) return []
    return [{ at: y(readout.value), text: series.name, style: styleOf(props, pane, series) }]
  })
  names.sort((left, right) => left.at - right.at)
  let free = pane.top + font * 0.5
  // More names than lines of text have no room beside the pane: the table below names them all.
  if (names.length * font * 1.15 > pane.bottom - pane.top) return []
  const lowest = pane.bottom - names.length * font * 1.15
  return names.map((name, place) => {
    const at = Math.max(free, Math.min(name.at, lowest + (place + 1) * font * 1.15))
    free = at + font * 1.15
    return label(`end-name ${name.style}`, layout.right + font * 0.4, at + font * 0.35, name.text)
  })
}

function clockMarks(props: TimeHistoryProps, layout: HistoryLayout): Mark[] {
  const clock = props.clockEpochMs
  if (clock === null || clock < props.fromEpochMs || clock > props.untilEpochMs) return []
  const font = layout.fontPixels
  const at = toX(layout, props)(clock)
  const text = formatInstant(clock, props.timeZone)
  const half = textWidth(text, font) * 0.54 + font * 0.5
  const middle = Math.min(Math.max(at, half), layout.widthPixels - half)
  const marks: Mark[] = [
    line('clock-line', at, font * 1.6, at, layout.bottom),
    box('clock-plate', [middle - half, 1, middle + half, font * 1.7]),
    label('clock-text', middle, font * 1.2, text, 'middle'),
    path('clock-grip', `M${at - font * 0.5} ${layout.bottom}h${font}l${-font * 0.5} ${-font * 0.8}Z`),
  ]
  for (const pane of layout.panes) {
    if (pane.drawnAs === 'bars') continue
    const y = toY(pane)
    pane.series.forEach((series) => {
      const readout = readHistory(
        series,
        props.traces.find((one) => one.series === series.series),
        clock,
      )
      if (readout.value === null || readout.old) return
      const style = styleOf(props, pane, series)
      const height = y(readout.value)
      if (height >= pane.top && height <= pane.bottom)
        marks.push(dot(`at-clock ${style}`, at, height, font / 3.2))
    })
  }
  return marks
}

/** What is being proposed, framed over every pane that is not a companion's, with what it is in words. */
function proposedMarks(props: TimeHistoryProps, layout: HistoryLayout): Mark[] {
  const { proposed } = props
  if (!proposed) return []
  const x = toX(layout, props)
  const from = Math.max(layout.left, x(proposed.fromEpochMs))
  const until = Math.min(layout.right, Math.max(x(proposed.untilEpochMs), from + 2))
  if (until <= layout.left || from >= layout.right) return []
  const says = `Proposed: from ${formatInstant(proposed.fromEpochMs, props.timeZone)} to ${formatInstant(proposed.untilEpochMs, props.timeZone)}`
  return layout.panes
    .filter(({ companion }) => !companion)
    .map((pane) => box('proposed', [from, pane.top, until, pane.bottom], says))
}

function emptyMarks(props: TimeHistoryProps, layout: HistoryLayout): Mark[] {
  const font = layout.fontPixels
  const middle = (layout.left + layout.right) / 2
  if (props.series.length === 0)
    return [
      label(
        'message',
        middle,
        layout.heightPixels / 2,
        'Choose a measuring point to see its readings.',
        'middle',
      ),
    ]
  return layout.panes.flatMap((pane) => {
    const any = pane.series.some((series) =>
      [
        ...props.traces.filter((trace) => trace.series === series.series),
        ...joinedTraces(series, props.traces).map(({ trace }) => trace),
      ].some(({ atEpochMs }) => atEpochMs.length > 0),
    )
    if (any) return []
    const text = props.waiting ? 'Fetching readings …' : 'No readings between these dates.'
    return [label('message', middle, (pane.top + pane.bottom) / 2 + font * 0.4, text, 'middle')]
  })
}
