import { createMemo, For, Show } from 'solid-js'
import type { NetworkStudy } from '#domain/radio/network-study.ts'
import { beforeAndAfter, deliveryText, gainSentence } from '../../derived/radio/link-sentences.ts'
import { shownFactor } from '../../state/radio-plan.ts'

/** What a planned change makes of each logger's delivery: those that change first, the rest in a word. */
export function ChangeTable(props: { study: NetworkStudy }) {
  const rows = createMemo(() => beforeAndAfter(props.study.loggers, shownFactor()))
  const changed = () =>
    rows().filter(({ before, after }) => Math.abs(after.marginDb - before.marginDb) >= 0.5)
  const rest = () => rows().length - changed().length
  const signed = (value: number) => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(0)}`
  return (
    <>
      <p>{gainSentence(rows(), props.study.wantedShare)}</p>
      <Show when={changed().length > 0} fallback={<p>No link changes by half a decibel or more.</p>}>
        <table class="plain">
          <caption>Delivery at SF {shownFactor()} before and after, with its 90 % interval</caption>
          <thead>
            <tr>
              <th scope="col">Logger</th>
              <th scope="col">Now</th>
              <th scope="col">Then</th>
              <th scope="col">Margin, dB</th>
            </tr>
          </thead>
          <tbody>
            <For each={changed()}>
              {(row) => (
                <tr>
                  <th scope="row">{row.logger}</th>
                  <td>
                    {deliveryText(row.before)}, {row.beforeGateway}
                  </td>
                  <td>
                    {deliveryText(row.after)}, {row.afterGateway}
                    {row.afterEdge === null || row.afterEdge === 'ground' ? '' : ` over ${row.afterEdge}`}
                  </td>
                  <td>
                    {row.before.marginDb.toFixed(0).replace('-', '−')} →{' '}
                    {row.after.marginDb.toFixed(0).replace('-', '−')} (
                    {signed(row.after.marginDb - row.before.marginDb)})
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </Show>
      <p class="key-note">
        {rest()} loggers keep their links. Edges count over their tops only; a thing with openings or beside
        the path takes another share. What changed is to be tested when it stands.
      </p>
    </>
  )
}
