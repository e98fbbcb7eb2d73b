import { For } from 'solid-js'
import type { Conflict, Quarantined } from '#contract/receipt.ts'
import { formatInstant, formatOffset } from '../ui/format-instant.ts'

const mostRows = 500

/** What was set aside of a batch: line, column, reason. */
export function QuarantineTable(props: { entries: readonly Quarantined[] }) {
  return (
    <div class="scroll-across">
      <table class="plain">
        <caption>
          Quarantined entries: {props.entries.length.toLocaleString('en-GB')}
          {props.entries.length > mostRows ? `, the first ${mostRows} shown` : ''}
        </caption>
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col">Column</th>
            <th scope="col">Text</th>
            <th scope="col">Reason</th>
            <th scope="col">Readings</th>
          </tr>
        </thead>
        <tbody>
          <For each={props.entries.slice(0, mostRows)}>
            {(entry) => (
              <tr>
                <th scope="row">{entry.line}</th>
                <td>{entry.column ?? 'row'}</td>
                <td>
                  <code>{entry.value}</code>
                </td>
                <td>
                  {entry.message} <small>{entry.code}</small>
                </td>
                <td>{entry.readings}</td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </div>
  )
}

/** Readings for which two files say different things; the first one stands until a person decides. */
export function ConflictTable(props: { conflicts: readonly Conflict[]; zone: string }) {
  return (
    <details class="conflicts">
      <summary>
        {props.conflicts.length.toLocaleString('en-GB')} readings in conflict: two files differ, the first
        stands
      </summary>
      <div class="scroll-across">
        <table class="plain">
          <thead>
            <tr>
              <th scope="col">Logger / channel</th>
              <th scope="col">Instant</th>
              <th scope="col">Kept</th>
              <th scope="col">Offered</th>
              <th scope="col">By batch</th>
            </tr>
          </thead>
          <tbody>
            <For each={props.conflicts.slice(0, mostRows)}>
              {(conflict) => (
                <tr>
                  <th scope="row">
                    {conflict.logger} / {conflict.channel}
                  </th>
                  <td>
                    {formatInstant(conflict.atEpochMs, props.zone)}{' '}
                    {formatOffset(conflict.atEpochMs, props.zone)}
                  </td>
                  <td>{conflict.keptRaw}</td>
                  <td>{conflict.offeredRaw}</td>
                  <td>{conflict.batch}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </div>
    </details>
  )
}
