import { For, Show } from 'solid-js'
import type { PlacedPoint } from '#contract/site-document.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatShortInstant } from '../ui/format-instant.ts'

/** Measuring points with their places. */
export function PointTable(props: { points: readonly PlacedPoint[] }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <table class="plain">
      <caption>Measuring points</caption>
      <thead>
        <tr>
          <th scope="col">Point</th>
          <th scope="col">Depth, m</th>
          <th scope="col">Level, m</th>
          <th scope="col">E, m</th>
          <th scope="col">N, m</th>
          <th scope="col">Stratum</th>
        </tr>
      </thead>
      <tbody>
        <For each={props.points}>
          {(point) => (
            <tr>
              <th scope="row">{point.id}</th>
              <td>{point.depthMetres.toFixed(2)}</td>
              <td>{point.levelMetres.toFixed(2).replace('-', '−')}</td>
              <td>{point.eastingMetres.toFixed(2)}</td>
              <td>{point.northingMetres.toFixed(2)}</td>
              <td>
                {point.stratum ?? '–'}
                <Show when={point.retiredAtEpochMs}>
                  {(at) => <em> out of use since {formatShortInstant(at(), zone())}</em>}
                </Show>
              </td>
            </tr>
          )}
        </For>
      </tbody>
    </table>
  )
}
