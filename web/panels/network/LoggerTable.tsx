import { createSignal, For, Show } from 'solid-js'
import { type LoggerLine, lastHeardOf } from '../../derived/network-condition.ts'
import { selectedPoint } from '../../state/selection.ts'
import { siteLookup } from '../../state/site-document.ts'
import { formatAge, formatShortInstant } from '../../ui/format-instant.ts'
import { type LoggerColumn, type LoggerOrder, ordered } from './logger-order.ts'
import {
  batteryWords,
  completenessWords,
  deliveryWords,
  driftWords,
  standingWords,
  type Told,
} from './logger-words.ts'
import { showLogger } from './show-logger.ts'

const headings: readonly (readonly [LoggerColumn, string])[] = [
  ['asked', 'Standing'],
  ['logger', 'Logger'],
  ['heard', 'Last heard'],
  ['held', 'Held, 7 days'],
  ['delivered', 'In time'],
  ['clock', 'Clock gains, s/d'],
  ['battery', 'Battery'],
  ['calibration', 'Calibration due'],
  ['walk', 'Walk'],
]

/** Every logger with what is known of it, in an order that a press of a heading changes. */
export function LoggerTable(props: { lines: readonly LoggerLine[]; atEpochMs: number; zone: string }) {
  const [order, setOrder] = createSignal<LoggerOrder>({ by: 'asked', descending: false })
  const press = (by: LoggerColumn) =>
    setOrder((before) => ({ by, descending: before.by === by && !before.descending }))
  const sorted = (by: LoggerColumn) =>
    order().by !== by ? 'none' : order().descending ? 'descending' : 'ascending'
  return (
    <section class="logger-scroll" aria-label="Table of loggers" tabindex="0">
      <table class="logger-table">
        <thead>
          <tr>
            <For each={headings}>
              {([by, name]) => (
                <th scope="col" aria-sort={sorted(by)}>
                  <button type="button" onClick={() => press(by)}>
                    {name}
                    {order().by === by ? (order().descending ? ' ▾' : ' ▴') : ''}
                  </button>
                </th>
              )}
            </For>
          </tr>
        </thead>
        <For each={ordered(props.lines, order())}>
          {(line) => <LoggerRows line={line} atEpochMs={props.atEpochMs} zone={props.zone} />}
        </For>
      </table>
    </section>
  )
}

const TwoLines = (props: { told: Told }) => (
  <td>
    {props.told[0]}
    <br />
    {props.told[1]}
  </td>
)

function LoggerRows(props: { line: LoggerLine; atEpochMs: number; zone: string }) {
  const logger = () => props.line.facts.logger
  const heard = (): Told => {
    const at = lastHeardOf(props.line.facts)
    return at === null
      ? ['never', '']
      : [`${formatAge(props.atEpochMs - at)} ago`, formatShortInstant(at, props.zone)]
  }
  const due = (): Told =>
    props.line.calibrationDueEpochMs === null
      ? ['none', 'within 60 d']
      : [
          `${props.line.calibrationsDue} sensors`,
          `from ${formatShortInstant(props.line.calibrationDueEpochMs, props.zone)}`,
        ]
  return (
    <tbody data-standing={props.line.condition.standing}>
      <tr>
        <td>{standingWords[props.line.condition.standing]}</td>
        <th scope="row">
          <Show when={siteLookup().pointById.has(logger())} fallback={logger()}>
            <button
              type="button"
              aria-pressed={selectedPoint()?.id === logger()}
              onClick={() => showLogger(logger())}
            >
              {logger()}
            </button>
          </Show>
        </th>
        <TwoLines told={heard()} />
        <td>{completenessWords(props.line.completeness)}</td>
        <td>{deliveryWords(props.line.completeness)}</td>
        <TwoLines told={driftWords(props.line.drift)} />
        <TwoLines told={batteryWords(props.line.battery, props.line.batteryLimitVolts)} />
        <TwoLines told={due()} />
        <td>{props.line.stop}</td>
      </tr>
      <Show when={props.line.condition.remarks.length > 0}>
        <tr class="logger-remarks">
          <td colspan={headings.length}>
            <ul>
              <For each={props.line.condition.remarks}>
                {({ says, toDo }) => (
                  <li>
                    {says} <em>{toDo}</em>
                  </li>
                )}
              </For>
            </ul>
          </td>
        </tr>
      </Show>
    </tbody>
  )
}
