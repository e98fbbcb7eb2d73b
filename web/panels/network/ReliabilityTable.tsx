import { For } from 'solid-js'
import type { ReliabilityRow } from '#domain/radio/network-check.ts'

/** What was predicted of tests that the fit had not seen, against what arrived in them. */
export function ReliabilityTable(props: { rows: readonly ReliabilityRow[] }) {
  const percent = (share: number) => `${(100 * share).toFixed(1)} %`
  return (
    <>
      <table class="plain">
        <caption>Predicted against observed delivery of tests that were left out</caption>
        <thead>
          <tr>
            <th scope="col">Predicted</th>
            <th scope="col">Mean of it</th>
            <th scope="col">Arrived</th>
            <th scope="col">Observed (95 % interval)</th>
          </tr>
        </thead>
        <tbody>
          <For each={props.rows}>
            {(row) => (
              <tr>
                <th scope="row">
                  {100 * row.low} to {100 * row.high} %
                </th>
                <td>{percent(row.predictedShare)}</td>
                <td>
                  {row.received} of {row.sent}
                </td>
                <td>
                  {percent(row.received / row.sent)} ({percent(row.interval.low)} to{' '}
                  {percent(row.interval.high)})
                </td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
      <p class="key-note">
        Packets of one test share its place, so these intervals are too narrow. Where less arrived than was
        predicted, single spots lost what no fit knows of: rely on tests there.
      </p>
    </>
  )
}
