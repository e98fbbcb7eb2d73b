import { For, Show } from 'solid-js'
import type { Analysis } from '#domain/ground/analysis.ts'
import { quantityText } from './quantity-text.ts'

/** What an analysis found and rests on: figures with their errors, what was stated, what was left out and why. Its remarks stand under its drawing. */
export function AnalysisAccount(props: {
  /** What it is of: regions of one page are told apart by it. */
  of: string
  account: Analysis<unknown>
  nameOf: (item: never) => string
}) {
  const name = (item: unknown) => props.nameOf(item as never)
  return (
    <section class="account" aria-label={`What was found, and from what: ${props.of}`}>
      <dl class="facts">
        <For each={props.account.found}>
          {(one) => (
            <div>
              <dt>{one.name}</dt>
              <dd>{quantityText(one)}</dd>
            </div>
          )}
        </For>
      </dl>
      <p class="key-note">± is one standard error; bands and bars in the drawing are of 95 %.</p>
      <details class="record-more">
        <summary>
          Method; {props.account.used.length} used, {props.account.leftOut.length} left out
        </summary>
        <p>{props.account.method}</p>
        <dl class="facts">
          <For each={props.account.parameters}>
            {(one) => (
              <div>
                <dt>{one.name}</dt>
                <dd>{quantityText(one)}</dd>
              </div>
            )}
          </For>
        </dl>
        <p>Used: {props.account.used.map(name).join(', ')}.</p>
        <Show when={props.account.leftOut.length > 0}>
          <ul>
            <For each={props.account.leftOut}>
              {(one) => (
                <li>
                  {name(one.item)}: {one.reason}
                </li>
              )}
            </For>
          </ul>
        </Show>
      </details>
    </section>
  )
}
