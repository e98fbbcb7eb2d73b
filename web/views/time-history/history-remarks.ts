import { markWords } from '#domain/flags/mark-words.ts'
import { quality } from '#domain/reduction/quality.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import type { HistorySeries, HistoryTrace, TimeHistoryProps } from './history-props.ts'
import { readHistory } from './history-readout.ts'
import { stretches } from './trace-marks.ts'

/** What is missing or doubtful in the window, in sentences. */
export function historyRemarks(props: TimeHistoryProps): readonly string[] {
  const sentences = [...props.remarks]
  const own = props.series.flatMap((series) => {
    const trace = props.traces.find((one) => one.series === series.series)
    return trace && trace.atEpochMs.length > 0 ? [{ series, trace }] : []
  })
  const without = props.series.length - own.length
  if (without > 0 && !props.waiting)
    sentences.push(
      `No readings between these dates: ${props.series
        .filter((series) => !own.some((one) => one.series === series))
        .map((series) => series.name)
        .join(', ')}.`,
    )
  sentences.push(...props.series.flatMap(({ joined = [] }) => joined.map(({ sentence }) => sentence)))
  sentences.push(...expectedRemarks(props))
  const banded = props.series.filter(({ envelope = [] }) => envelope.length > 0).map(({ name }) => name)
  if (banded.length > 0)
    sentences.push(
      `Pale band: what the design expects of ${banded.join(', ')} stage by stage; while a stage lasts, from what was expected before it to what is by its end. It is no trigger level.`,
    )
  const late = own.filter(
    ({ trace }) => stretches(trace, 0, (row) => hasBit(trace.quality[row], quality.receivedLate)).length > 0,
  )
  if (late.length > 0)
    sentences.push(
      `Received long after they were taken (hatched at the foot, hollow marks): readings of ${late
        .map(({ series }) => series.name)
        .join(', ')}.`,
    )
  sentences.push(...laterRemarks(props))
  sentences.push(...checkRemarks(props, own))
  const clock = props.clockEpochMs
  const shown = clock !== null && clock >= props.fromEpochMs && clock <= props.untilEpochMs
  if (clock !== null && !shown && props.series.length > 0)
    sentences.push(`The clock, ${formatInstant(clock, props.timeZone)}, lies outside these dates.`)
  if (clock !== null && shown) {
    const old = own.filter(({ series, trace }) => readHistory(series, trace, clock).old)
    if (old.length > 0)
      sentences.push(
        `${old.length} of ${props.series.length} series have no current reading at ${formatInstant(clock, props.timeZone)}.`,
      )
  }
  const resolutions = new Set(own.map(({ trace }) => trace.resolution))
  if (resolutions.has('day'))
    sentences.push('Lines are day means, the band is lowest to highest. Zoom in for hours, then readings.')
  else if (resolutions.has('hour'))
    sentences.push(
      'Lines are hour means, the band is lowest to highest. Zoom in for the readings themselves.',
    )
  else if (resolutions.has('raw')) sentences.push('Every reading is drawn.')
  return sentences
}

/** How many readings had not come by the clock, and when they came; those taken after it are not counted. */
function laterRemarks({ series, later, clockEpochMs, timeZone }: TimeHistoryProps): readonly string[] {
  if (later === undefined || clockEpochMs === null) return []
  const at = formatInstant(clockEpochMs, timeZone)
  const told = series.flatMap(({ series: number, name }) => {
    const trace = later.find((one) => one.series === number)
    const count = Array.from(trace?.count ?? []).reduce(
      (sum, n, row) => sum + ((trace?.atEpochMs[row] ?? 0) <= clockEpochMs ? n : 0),
      0,
    )
    if (!trace || count === 0) return []
    const [first, last] = [trace.firstReceivedEpochMs, trace.lastReceivedEpochMs].map((one) =>
      formatInstant(one, timeZone),
    )
    const came = first === last ? `on ${first}` : `from ${first} to ${last}`
    return [
      `${count === 1 ? 'One reading' : `${count} readings`} of ${name} that ${count === 1 ? 'was' : 'were'} taken by ${at} had not come by then (broken line, hatched at the head): ${count === 1 ? 'it' : 'they'} came ${came}.`,
    ]
  })
  return told.length > 0 ? told : [`All that was taken by ${at} between these dates had come by then.`]
}

/** What is expected within the window, drawn as upright bars with feet. */
function expectedRemarks({ series, fromEpochMs, untilEpochMs }: TimeHistoryProps): readonly string[] {
  return series.flatMap(({ expected = [] }) =>
    expected
      .filter(({ atEpochMs }) => atEpochMs >= fromEpochMs && atEpochMs <= untilEpochMs)
      .map(({ sentence }) => `Bar with feet: ${sentence}`),
  )
}

/** What the automatic checks marked and people found in the window, with the shapes that it is drawn as. */
function checkRemarks(
  props: TimeHistoryProps,
  own: readonly { readonly series: HistorySeries; readonly trace: HistoryTrace }[],
): readonly string[] {
  const told = own.flatMap(({ series, trace }) => {
    const counts = new Map<string, number>()
    for (let row = 0; row < trace.flags.length; row++) {
      const at = trace.atEpochMs[row] as number
      if (at < props.fromEpochMs || at > props.untilEpochMs) continue
      for (const words of markWords(trace.flags[row] ?? 0, series.checkLimits, series.unit, at))
        counts.set(words, (counts.get(words) ?? 0) + 1)
    }
    const one = { raw: 'reading', hour: 'hour', day: 'day' }[trace.resolution]
    const parts = [...counts].map(([words, count]) => `${words}, ${count} ${one}${count === 1 ? '' : 's'}`)
    return parts.length === 0 ? [] : [`${series.name}: ${parts.join('; ')}`]
  })
  const found = props.series.flatMap(({ name, verdicts }) =>
    verdicts
      .filter(
        ({ fromAt, untilAt }) => fromAt <= props.untilEpochMs && (untilAt ?? Infinity) > props.fromEpochMs,
      )
      .map(({ verdict, author, reason }) => `${name} ${verdict} by ${author}, ${reason}`),
  )
  // One that a later verdict cut in two is told once.
  const verdicts = [...new Set(found)]
  return [
    ...(told.length === 0
      ? []
      : [
          `Marked by automatic checks (triangle: suspect, cross: fails), which take nothing away and lower no level. ${told.join('. ')}.`,
        ]),
    ...(verdicts.length === 0
      ? []
      : [
          `Found by a person (at the head: whole bar accepted, broken bar doubtful, crosses rejected); the readings stay drawn and held against levels. ${verdicts.join('. ')}.`,
        ]),
  ]
}

const hasBit = (bits: number | undefined, bit: number) => ((bits ?? 0) & bit) !== 0
