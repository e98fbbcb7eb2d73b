import { formatInstant } from '../../ui/format-instant.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import { onceAFrame } from '../marks/once-a-frame.ts'
import { createViewFrame, element, fillTable } from '../marks/view-frame.ts'
import { listenForGestures, type Shown } from './history-gestures.ts'
import type { TimeHistoryEvents, TimeHistoryProps } from './history-props.ts'
import { readHistory, readoutAge } from './history-readout.ts'
import { historyRemarks } from './history-remarks.ts'
import { historyTable } from './history-table.ts'
import { joinedReadouts } from './joined-history.ts'
import { timeHistoryScene } from './scene.ts'
import { traceStyle } from './trace-marks.ts'
import { shiftBy, zoomAbout } from './window-moves.ts'
import '../marks/marks.css'
import './time-history.css'

export interface TimeHistory {
  update(props: TimeHistoryProps): void
  destroy(): void
}

/** Readings over time, drawn into a container that gives the room. */
export function createTimeHistory(container: HTMLElement, events: TimeHistoryEvents): TimeHistory {
  let shown: Shown | null = null
  let props: TimeHistoryProps | null = null
  const drawing = onceAFrame(() => draw())
  const frame = createViewFrame(container, 'time-history', () => draw())
  const tools = element('div', 'view-tools')
  const readout = element('table', '')
  const readoutBox = element('div', 'history-readout')
  // It scrolls when many series are shown, so it must be reachable by keyboard.
  readoutBox.tabIndex = 0
  readoutBox.setAttribute('role', 'region')
  readoutBox.setAttribute('aria-label', 'Values at the clock')
  readoutBox.append(readout)
  const details = element('details', 'view-table')
  const table = element('table', '')
  details.append(element('summary', '', 'The same as a table'), table)
  frame.root.prepend(tools)
  frame.root.append(readoutBox, details)
  frame.drawing.setAttribute('tabindex', '0')
  const band = element('div', 'history-band')
  band.hidden = true
  frame.root.append(band)

  const tool = (text: string, says: string, act: (now: Shown) => void) => {
    const button = element('button', 'view-tool', text)
    button.type = 'button'
    button.title = says
    button.setAttribute('aria-label', says)
    button.addEventListener('click', () => shown && act(shown))
    tools.append(button)
  }
  const showWindow = (window: { fromEpochMs: number; untilEpochMs: number }) =>
    events.onWindow(window.fromEpochMs, window.untilEpochMs)
  const lengthOf = ({ props: now }: Shown) => now.untilEpochMs - now.fromEpochMs
  const middleOf = ({ props: now }: Shown) => {
    const clock = now.clockEpochMs
    return clock !== null && clock > now.fromEpochMs && clock < now.untilEpochMs
      ? clock
      : (now.fromEpochMs + now.untilEpochMs) / 2
  }
  tool('◂ Earlier', 'Show earlier dates', (now) =>
    showWindow(shiftBy(now.props, -lengthOf(now) / 2, now.props.spanEpochMs)),
  )
  tool('Later ▸', 'Show later dates', (now) =>
    showWindow(shiftBy(now.props, lengthOf(now) / 2, now.props.spanEpochMs)),
  )
  tool('+ Closer', 'Zoom in about the clock', (now) =>
    showWindow(zoomAbout(now.props, middleOf(now), 0.4, now.props.spanEpochMs)),
  )
  tool('− Wider', 'Zoom out about the clock', (now) =>
    showWindow(zoomAbout(now.props, middleOf(now), 2.5, now.props.spanEpochMs)),
  )
  tool('Readings', 'Zoom in until every reading is drawn', (now) => {
    const interval = Math.min(...now.props.series.map((one) => one.intervalMinutes), 60)
    const length = Math.min(lengthOf(now), interval * 60_000 * (now.layout.right - now.layout.left))
    showWindow(zoomAbout(now.props, middleOf(now), length / lengthOf(now), now.props.spanEpochMs))
  })
  tool('Whole record', 'Show the whole record', (now) => {
    const [fromEpochMs, untilEpochMs] = now.props.spanEpochMs
    showWindow({ fromEpochMs, untilEpochMs })
  })

  listenForGestures(frame.drawing, () => shown, {
    ...events,
    onBand(range) {
      band.hidden = range === null || !shown
      if (!range || !shown) return
      const { left, right, top, bottom, widthPixels } = shown.layout
      const own = frame.drawing.getBoundingClientRect()
      const outer = frame.root.getBoundingClientRect()
      const scale = own.width / widthPixels
      const [one, other] = range.map((x) => Math.min(Math.max(x, left), right) * scale) as [number, number]
      band.style.left = `${own.left - outer.left + Math.min(one, other)}px`
      band.style.width = `${Math.abs(other - one)}px`
      band.style.top = `${own.top - outer.top + top * scale}px`
      band.style.height = `${(bottom - top) * scale}px`
    },
  })
  details.addEventListener('toggle', () => fillDetails())

  const draw = () => {
    if (!props) return
    const { marks, layout } = timeHistoryScene(props, frame.size())
    shown = { props, layout }
    frame.root.classList.toggle('choosing', props.choosing === true)
    const names = props.series.map((series) => series.name).join(', ')
    frame.draw(
      marks,
      `Readings over time of ${names || 'nothing'}. Arrow keys move the clock, with Shift the dates; plus and minus zoom; Home shows the whole record.`,
    )
    // Panes one above the other need the height: on a board what is said stands beside them.
    frame.root.classList.toggle('said-beside', layout.panes.length > 1)
    fillReadout(props)
    frame.say(historyRemarks(props))
    fillDetails()
  }

  const fillDetails = () => {
    if (!details.open || !props) return
    const { caption, headings, rows } = historyTable(props)
    fillTable(table, caption, headings, rows)
  }

  const fillReadout = (now: TimeHistoryProps) => {
    const clock = now.clockEpochMs
    const outside = clock === null || clock < now.fromEpochMs || clock > now.untilEpochMs
    // Before anything has come "no readings" would be said of readings that are on their way.
    const awaited = now.waiting && now.traces.length === 0
    readoutBox.hidden = outside || awaited || now.series.length === 0
    if (outside || awaited) return
    const shownSeries = [...now.series, ...now.companions.map((companion) => companion.series)]
    const own = shownSeries.map((series) =>
      readHistory(
        series,
        now.traces.find((trace) => trace.series === series.series),
        clock,
      ),
    )
    const earlier = now.series.flatMap((series, place) =>
      joinedReadouts(series, now.traces, clock).map((one) => ({
        one,
        style: `${traceStyle(place)} joined`,
      })),
    )
    const readouts = [...own, ...earlier.map(({ one }) => one)]
    fillTable(
      readout,
      `At ${formatInstant(clock, now.timeZone)}`,
      ['Series', 'Value', 'Age', 'Remarks'],
      readouts.map((one) => [
        `${one.series.name}, ${one.series.measure.toLowerCase()}`,
        one.value === null
          ? 'no value'
          : withUnit(formatValue(one.value, one.series.decimals), one.series.unit),
        readoutAge(one, clock),
        [
          ...(one.resolution === 'raw' || one.row === null ? [] : [`${one.resolution} mean`]),
          ...(one.old && one.row !== null ? ['not current'] : []),
          ...one.notes,
        ].join('; '),
      ]),
    )
    readouts.forEach((one, place) => {
      const row = readout.tBodies[0]?.rows[place]
      if (!row) return
      row.className = one.old || one.value === null ? 'not-current' : ''
      const style = place < now.series.length ? traceStyle(place) : 'companion'
      row.cells[0]?.prepend(sample(earlier[place - own.length]?.style ?? style))
    })
  }

  return {
    update(next) {
      props = next
      drawing.ask()
    },
    destroy() {
      drawing.cancel()
      frame.destroy()
      props = null
      shown = null
    },
  }
}

function sample(style: string): SVGSVGElement {
  const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg')
  svg.setAttribute('viewBox', '0 0 36 10')
  svg.setAttribute('class', 'line-sample')
  svg.setAttribute('aria-hidden', 'true')
  const drawn = document.createElementNS('http://www.w3.org/2000/svg', 'path')
  drawn.setAttribute('class', `trace ${style}`)
  drawn.setAttribute('d', 'M1 5H35')
  svg.append(drawn)
  return svg
}
