import { quality } from '#domain/reduction/quality.ts'
import { thinMinMax } from '../../derived/thin-min-max.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { box, dot, line, type Mark, path, pathThrough } from '../marks/mark.ts'
import { amounts } from './amounts.ts'
import type { HistoryLayout, Pane } from './history-layout.ts'
import { toX, toY } from './history-layout.ts'
import type { HistorySeries, HistoryTrace, LaterTrace, TimeHistoryProps } from './history-props.ts'

const bucketMinutes = { raw: 0, hour: 60, day: 1440 } as const

/** Longest step between two rows that still belong together: one and a half intervals or buckets. */
export const longestStepMs = (series: HistorySeries, trace: HistoryTrace): number =>
  1.5 * Math.max(series.intervalMinutes, bucketMinutes[trace.resolution]) * 60_000

/** How series number `place` is drawn: one of six inks, and a dash from the seventh on. */
export const traceStyle = (place: number): string => `ink-${place % 6} dash-${Math.floor(place / 6) % 3}`

/** The same in a pane: by its place among all that are shown, as tables beside the drawing have it. */
export const styleOf = (
  { series: shown }: Pick<TimeHistoryProps, 'series'>,
  { companion }: Pick<Pane, 'companion'>,
  series: HistorySeries,
): string => (companion ? 'companion' : traceStyle(shown.indexOf(series)))

/** Line, band between lowest and highest, single readings, and what lacks a value or came late. */
export function traceMarks(
  props: TimeHistoryProps,
  layout: HistoryLayout,
  pane: Pane,
  series: HistorySeries,
  trace: HistoryTrace,
  style: string,
): Mark[] {
  const x = toX(layout, props)
  const y = toY(pane)
  const allX = Float64Array.from(trace.atEpochMs, (at) => x(at))
  const rows = thinMinMax(allX, trace.value)
  const runs = unbroken(trace, rows, longestStepMs(series, trace))
  const marks: Mark[] = []
  if (trace.resolution !== 'raw') {
    const band = runs
      .filter((run) => run.length > 1)
      .map((run) => bandPath(run, trace, allX, y))
      .join('')
    if (band) marks.push(path(`band ${style}`, band))
  }
  const d = runs
    .map((run) => pathThrough(run.map((row) => [allX[row] ?? 0, y(trace.value[row] ?? 0)])))
    .join('')
  if (d) marks.push(path(`trace ${style}`, d))
  const inside = rows.length
  const roomy = inside * layout.fontPixels * 1.2 < layout.right - layout.left
  for (const run of runs)
    if (roomy || run.length === 1)
      for (const row of run) {
        const late = ((trace.quality[row] ?? 0) & quality.receivedLate) !== 0
        marks.push(
          dot(
            `reading ${style}${late ? ' received-late' : ''}`,
            allX[row] ?? 0,
            y(trace.value[row] ?? 0),
            layout.fontPixels / 4.5,
          ),
        )
      }
  return marks
}

/** Readings that had not come by the clock: a broken line and hollow points, and a hatched stretch at the head of the pane. */
export function laterMarks(
  props: TimeHistoryProps,
  layout: HistoryLayout,
  pane: Pane,
  series: HistorySeries,
  trace: LaterTrace,
  style: string,
): Mark[] {
  const step = longestStepMs(series, trace)
  const x = toX(layout, props)
  const height = layout.fontPixels * 0.7
  const drawn = traceMarks(props, layout, pane, series, trace, `${style} later`)
  const came = `Not received by the clock: ${series.name}, came from ${formatInstant(trace.firstReceivedEpochMs, props.timeZone)} to ${formatInstant(trace.lastReceivedEpochMs, props.timeZone)}`
  const stretch = stretches(trace, step, () => true).map(([from, until]) =>
    box('later-stretch', [x(from) - 1, pane.top, x(until) + 1, pane.top + height], came),
  )
  return [...drawn.filter(({ attributes }) => !String(attributes.class).startsWith('band')), ...stretch]
}

/** Rain and other amounts: a bar each, from zero. */
export function barMarks(
  props: TimeHistoryProps,
  layout: HistoryLayout,
  pane: Pane,
  trace: HistoryTrace,
  style: string,
): Mark[] {
  const x = toX(layout, props)
  const y = toY(pane)
  const fallen = amounts(trace)
  let d = ''
  for (const row of thinMinMax(
    Float64Array.from(trace.atEpochMs, (at) => x(at)),
    fallen,
  )) {
    const amount = fallen[row] ?? Number.NaN
    if (!(amount > 0)) continue
    const at = x(trace.atEpochMs[row] ?? 0)
    d += `M${at.toFixed(1)} ${pane.bottom.toFixed(1)}V${y(amount).toFixed(1)}`
  }
  return d ? [path(`bars ${style}`, d)] : []
}

/** The rail at a pane's foot: stretches received late, and readings that gave no value. */
export function railMarks(
  props: TimeHistoryProps,
  layout: HistoryLayout,
  pane: Pane,
  traces: readonly (readonly [HistorySeries, HistoryTrace])[],
): Mark[] {
  const x = toX(layout, props)
  const foot = pane.bottom
  const height = layout.fontPixels * 0.55
  const marks: Mark[] = []
  const late: Stretch[] = []
  for (const [series, trace] of traces) {
    const step = longestStepMs(series, trace)
    for (const [from, until] of stretches(trace, step, (row) => hasBit(trace, row, quality.receivedLate)))
      late.push({ from, until: until + step, names: new Set([series.name]) })
    for (const [from, until] of stretches(trace, step, (row) => !Number.isFinite(trace.value[row])))
      marks.push(line('no-value', x(from) - 1.5, foot - height * 1.4, x(until) + 1.5, foot - height * 1.4))
  }
  for (const { from, until, names } of joined(late))
    marks.push(
      box(
        'late-stretch',
        [x(from) - 1, foot - height, x(until) + 1, foot],
        `Received long after it was taken: ${[...names].join(', ')}`,
      ),
    )
  return marks
}

interface Stretch {
  readonly from: number
  readonly until: number
  readonly names: ReadonlySet<string>
}

/** Stretches of several series as one where they overlap. */
function joined(stretches: readonly Stretch[]): Stretch[] {
  const found: Stretch[] = []
  for (const one of stretches.toSorted((left, right) => left.from - right.from)) {
    const last = found.at(-1)
    if (last && one.from <= last.until)
      found[found.length - 1] = {
        from: last.from,
        until: Math.max(last.until, one.until),
        names: new Set([...last.names, ...one.names]),
      }
    else found.push(one)
  }
  return found
}

/** Instants between which rows in sequence pass the test. */
export function stretches(
  trace: HistoryTrace,
  stepMs: number,
  passes: (row: number) => boolean,
): [number, number][] {
  const found: [number, number][] = []
  for (let row = 0; row < trace.atEpochMs.length; row++) {
    if (!passes(row)) continue
    const at = trace.atEpochMs[row] as number
    const last = found.at(-1)
    if (last && row > 0 && passes(row - 1) && at - last[1] <= stepMs) last[1] = at
    else found.push([at, at])
  }
  return found
}

/** Rows in runs that a line may join: all with values and none farther apart than the step. */
export function unbroken(trace: HistoryTrace, rows: ArrayLike<number>, stepMs: number): number[][] {
  const runs: number[][] = []
  let current: number[] = []
  let lastAt = Number.NEGATIVE_INFINITY
  for (let place = 0; place < rows.length; place++) {
    const row = rows[place] as number
    const at = trace.atEpochMs[row] as number
    const absent = !Number.isFinite(trace.value[row])
    if ((absent || brokenBetween(trace, lastAt, row, stepMs)) && current.length > 0) {
      runs.push(current)
      current = []
    }
    if (absent) continue
    current.push(row)
    lastAt = at
  }
  if (current.length > 0) runs.push(current)
  return runs
}

/** A thinned line skips rows, so the step is looked for between the row itself and the one before it. */
function brokenBetween(trace: HistoryTrace, lastAt: number, row: number, stepMs: number): boolean {
  const before = row > 0 ? (trace.atEpochMs[row - 1] as number) : Number.NEGATIVE_INFINITY
  const at = trace.atEpochMs[row] as number
  return at - Math.max(before, lastAt) > stepMs
}

function bandPath(
  run: readonly number[],
  trace: HistoryTrace,
  x: Float64Array,
  y: (value: number) => number,
): string {
  const upper = run.map((row) => [x[row] ?? 0, y(trace.high[row] ?? 0)] as const)
  const lower = run.map((row) => [x[row] ?? 0, y(trace.low[row] ?? 0)] as const).reverse()
  return `${pathThrough([...upper, ...lower])}Z`
}

const hasBit = (trace: HistoryTrace, row: number, bit: number) => ((trace.quality[row] ?? 0) & bit) !== 0
