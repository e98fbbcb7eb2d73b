import { unitSymbol } from '#domain/units.ts'
import { textWidth } from '../marks/mark.ts'
import { type Extent, extentOf, widened } from '../marks/value-ticks.ts'
import { amounts } from './amounts.ts'
import type { HistoryLevel, HistorySeries, HistoryTrace, TimeHistoryProps } from './history-props.ts'
import { joinedTraces } from './joined-history.ts'

export interface Size {
  readonly widthPixels: number
  readonly heightPixels: number
  readonly fontPixels: number
}

/** A strip of the drawing with a value axis of its own. */
export interface Pane {
  readonly heading: string
  readonly unit: string
  /** The unit as people write it, with the length of time that an amount is of. */
  readonly unitText: string
  readonly top: number
  readonly bottom: number
  readonly extent: Extent
  readonly series: readonly HistorySeries[]
  readonly drawnAs: 'line' | 'bars'
  readonly companion: boolean
}

export interface HistoryLayout extends Size {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  readonly stageLanes: number
  readonly panes: readonly Pane[]
}

/** Lanes of stages that are drawn at most; more overlap than that is told in words. */
const mostStageLanes = 3

/** A drawing lower than this many lines of text leaves its room to the readings; stages stand above the clock too. */
const leastLinesWithStages = 24

/** Puts panes, margins and value axes where they go. */
export function layOutHistory(props: TimeHistoryProps, size: Size): HistoryLayout {
  const font = size.fontPixels
  const wide = size.widthPixels > 34 * font
  const longest = Math.max(0, ...props.series.map((series) => textWidth(series.name, font)))
  const left = Math.min(size.widthPixels * 0.25, font * 4.6)
  const right = size.widthPixels - (wide ? Math.min(longest + font * 1.4, size.widthPixels * 0.2) : font)
  const low = size.heightPixels < leastLinesWithStages * font
  const stageLanes =
    low || props.stages.length === 0 ? 0 : Math.min(mostStageLanes, lanesOf(props.stages).lanes)
  const top = font * (2.2 + 1.5 * stageLanes + (props.diary.length > 0 ? 0.9 : 0))
  const bottom = size.heightPixels - font * 3.4
  const measured = groupByMeasure(props.series)
  const companionShare = props.companions.length === 0 ? 0 : Math.min(0.4, 0.16 * props.companions.length)
  const gap = font * 2
  const mainBottom = top + (bottom - top) * (1 - companionShare)
  const panes: Pane[] = []
  measured.forEach((series, place) => {
    const height = (mainBottom - top) / measured.length
    panes.push({
      ...paneOf(props, series, 'line', false),
      top: top + place * height + font * 1.5,
      bottom: top + (place + 1) * height - (place < measured.length - 1 || companionShare > 0 ? gap / 2 : 0),
    })
  })
  props.companions.forEach((companion, place) => {
    const height = (bottom - mainBottom) / props.companions.length
    panes.push({
      ...paneOf(props, [companion.series], companion.drawnAs, true),
      top: mainBottom + place * height + font * 1.5,
      bottom: mainBottom + (place + 1) * height - (place < props.companions.length - 1 ? font * 0.4 : 0),
    })
  })
  return { ...size, left, right, top, bottom, stageLanes, panes }
}

/** Pixel of an instant, and instant of a pixel. */
export const toX = (layout: Pick<HistoryLayout, 'left' | 'right'>, props: TimeHistoryProps) => {
  const scale = (layout.right - layout.left) / (props.untilEpochMs - props.fromEpochMs)
  return (atEpochMs: number) => layout.left + (atEpochMs - props.fromEpochMs) * scale
}

export const toInstant = (
  layout: Pick<HistoryLayout, 'left' | 'right'>,
  props: Pick<TimeHistoryProps, 'fromEpochMs' | 'untilEpochMs'>,
  x: number,
): number =>
  props.fromEpochMs +
  ((x - layout.left) / (layout.right - layout.left)) * (props.untilEpochMs - props.fromEpochMs)

export const toY = (pane: Pick<Pane, 'top' | 'bottom' | 'extent'>) => {
  const scale = (pane.bottom - pane.top) / (pane.extent.high - pane.extent.low)
  return (value: number) => pane.bottom - (value - pane.extent.low) * scale
}

/** Puts stages that overlap into lanes, in order of their start. */
export function lanesOf(stages: TimeHistoryProps['stages']): { lanes: number; laneOf: readonly number[] } {
  const free: number[] = []
  const laneOf = stages.map(() => 0)
  const order = stages.map((_, place) => place)
  order.sort((left, right) => (stages[left]?.fromEpochMs ?? 0) - (stages[right]?.fromEpochMs ?? 0))
  for (const place of order) {
    const stage = stages[place]
    if (!stage) continue
    let lane = free.findIndex((until) => until <= stage.fromEpochMs)
    if (lane < 0) lane = free.length
    free[lane] = stage.untilEpochMs ?? Number.POSITIVE_INFINITY
    laneOf[place] = lane
  }
  return { lanes: free.length, laneOf }
}

/** Values at which a level stands: both signs where it watches either way. */
export const levelValues = (level: HistoryLevel): readonly number[] =>
  level.direction === 'either' ? [level.value, -level.value] : [level.value]

function groupByMeasure(series: readonly HistorySeries[]): HistorySeries[][] {
  const groups = new Map<string, HistorySeries[]>()
  for (const one of series) {
    const key = `${one.pane ?? one.measure} ${one.unit}`
    groups.set(key, [...(groups.get(key) ?? []), one])
  }
  return [...groups.values()]
}

function paneOf(
  props: TimeHistoryProps,
  series: readonly HistorySeries[],
  drawnAs: 'line' | 'bars',
  companion: boolean,
) {
  const own = [...props.traces, ...(props.later ?? [])].filter((trace) =>
    series.some((one) => one.series === trace.series),
  )
  const traces = [
    ...own,
    ...series.flatMap((one) => joinedTraces(one, props.traces)).map(({ trace }) => trace),
  ]
  const first = series[0]
  return {
    heading: first?.pane ?? first?.measure ?? '',
    unit: first?.unit ?? '',
    unitText: unitTextOf(first?.unit ?? '', traces, drawnAs),
    series,
    drawnAs,
    companion,
    extent: paneExtent(props, series, traces, drawnAs),
  }
}

/** Amounts are told by the length of time that each bar stands for. */
function unitTextOf(unit: string, traces: readonly HistoryTrace[], drawnAs: 'line' | 'bars'): string {
  const symbol = unitSymbol(unit)
  const resolution = traces[0]?.resolution
  if (drawnAs === 'line' || resolution === undefined) return symbol
  return `${symbol} ${{ raw: 'a reading', hour: 'an hour', day: 'a day' }[resolution]}`
}

/** Room for the readings, and for trigger levels that do not press them flat. */
function paneExtent(
  props: TimeHistoryProps,
  series: readonly HistorySeries[],
  traces: readonly HistoryTrace[],
  drawnAs: 'line' | 'bars',
): Extent {
  const decimals = Math.min(...series.map((one) => one.decimals))
  const least = 10 * 10 ** -decimals
  if (drawnAs === 'bars') {
    const fallen = traces.flatMap((trace) =>
      [...amounts(trace)].filter((_, row) => isWithin(trace.atEpochMs[row] as number, props)),
    )
    return { low: 0, high: Math.max(least, (extentOf(fallen)?.high ?? 0) * 1.08) }
  }
  const seen = extentOf(traces.flatMap((trace) => [...visible(trace, props)]))
  const levels = [
    ...series.flatMap((one) => one.levels.flatMap(levelValues)),
    ...series.flatMap(({ expected = [] }) =>
      expected.filter((one) => isWithin(one.atEpochMs, props)).flatMap(({ low, high }) => [low, high]),
    ),
    ...props.holds
      .filter((hold) => series.some((one) => one.series === hold.series))
      .map((hold) => hold.value),
  ]
  if (!seen) return widened(extentOf(levels) ?? { low: 0, high: 1 }, 0.1, least)
  const breadth = Math.max(seen.high - seen.low, least)
  let { low, high } = seen
  for (const value of levels)
    if (value >= seen.low - 1.5 * breadth && value <= seen.high + 1.5 * breadth) {
      low = Math.min(low, value)
      high = Math.max(high, value)
    }
  return widened({ low, high }, 0.07, least)
}

const isWithin = (atEpochMs: number, props: TimeHistoryProps) =>
  atEpochMs >= props.fromEpochMs && atEpochMs <= props.untilEpochMs

function* visible(trace: HistoryTrace, props: TimeHistoryProps): Iterable<number> {
  for (let row = 0; row < trace.atEpochMs.length; row++) {
    const at = trace.atEpochMs[row] as number
    if (!isWithin(at, props)) continue
    yield trace.low[row] as number
    yield trace.high[row] as number
  }
}
