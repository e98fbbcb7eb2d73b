import { createSignal } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import { clockEpochMs, scrubTo } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { historySeries, historyStages } from '../../views/time-history/history-from-site.ts'
import type { HistoryTrace, TimeHistoryProps } from '../../views/time-history/history-props.ts'
import { TimeHistory } from '../../views/time-history/TimeHistory.tsx'

const officialNumber = -1
const sandboxNumber = -2

/** The official series and the sandbox's in one pane, on one scale, with the levels that hold officially. */
export function SandboxHistory(props: {
  series: Series
  official: ReducedSeries
  sandbox: ReducedSeries
  fromEpochMs: number
  untilEpochMs: number
  remarks: readonly string[]
  waiting: boolean
}) {
  const [window, setWindow] = createSignal<readonly [number, number] | null>(null)
  const shown = (): TimeHistoryProps => {
    const document = siteDocument()
    const span = [props.fromEpochMs, props.untilEpochMs] as const
    const [fromEpochMs, untilEpochMs] = window() ?? span
    const like = document ? historySeries(document, props.series) : null
    return {
      fromEpochMs,
      untilEpochMs,
      clockEpochMs: clockEpochMs(),
      spanEpochMs: span,
      timeZone: document?.facts.timeZone ?? 'UTC',
      series: like
        ? [
            { ...like, series: officialNumber, name: 'Official' },
            {
              ...like,
              series: sandboxNumber,
              name: 'Sandbox',
              levels: [],
              verdicts: [],
              expected: [],
              approved: [],
            },
          ]
        : [],
      companions: [],
      traces: [traceOf(props.official, officialNumber), traceOf(props.sandbox, sandboxNumber)],
      holds: [],
      stages: document ? historyStages(document) : [],
      diary: [],
      remarks: props.remarks,
      waiting: props.waiting,
    }
  }
  return (
    <div class="what-if-plot">
      <TimeHistory shown={shown} onClock={scrubTo} onWindow={(from, until) => setWindow([from, until])} />
    </div>
  )
}

function traceOf({ atEpochMs, value, quality }: ReducedSeries, series: number): HistoryTrace {
  return {
    series,
    resolution: 'raw',
    atEpochMs,
    value,
    low: value,
    high: value,
    count: value.map((one) => (Number.isNaN(one) ? 0 : 1)),
    quality: Float64Array.from(quality),
    flags: new Float64Array(value.length),
  }
}
