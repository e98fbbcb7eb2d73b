import { createSignal, For, Show } from 'solid-js'
import type { ListedSuppression } from '#contract/duties-document.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { formatAge, formatInstant } from '../../ui/format-instant.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { EndSuppressionForm } from './EndSuppressionForm.tsx'
import { SuppressionForm } from './SuppressionForm.tsx'

/** What is not sent now and until when, with the way to end it; and the way to hold something back. */
export function SuppressionSection(props: {
  suppressions: readonly ListedSuppression[]
  atEpochMs: number
  zone: string
}) {
  const [adding, setAdding] = createSignal(false)
  const [ending, setEnding] = createSignal<string | null>(null)
  const standing = () => props.suppressions.filter(({ stands }) => stands)
  const past = () => props.suppressions.filter(({ stands }) => !stands)
  return (
    <section class="duty-section" aria-label="What is not sent">
      <h2>What is not sent</h2>
      <p>
        Alerts held back are raised and shown all the same; those that nobody acknowledged are told at the
        end.
      </p>
      <Show when={standing().length > 0} fallback={<p>Nothing is held back now.</p>}>
        <ul class="suppressions">
          <For each={standing()}>
            {(one) => (
              <li>
                <strong>
                  {one.covers} {one.name}
                </strong>{' '}
                until {formatInstant(one.untilEpochMs, props.zone)},{' '}
                {formatAge(one.untilEpochMs - props.atEpochMs)} left: {one.reason} <small>{one.author}</small>
                <Show when={hindranceTo('change-records') === null}>
                  <div class="buttons">
                    <button type="button" aria-label={`End ${one.id} now`} onClick={() => setEnding(one.id)}>
                      End it now
                    </button>
                  </div>
                </Show>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <Show when={standing().some(({ id }) => id === ending()) && ending()} keyed>
        {(id) => <EndSuppressionForm suppression={id} leave={() => setEnding(null)} />}
      </Show>
      <WhenAllowed to="change-records">
        <Show
          when={adding()}
          fallback={
            <div class="buttons">
              <button type="button" onClick={() => setAdding(true)}>
                Hold something back …
              </button>
            </div>
          }
        >
          <SuppressionForm zone={props.zone} atEpochMs={props.atEpochMs} leave={() => setAdding(false)} />
        </Show>
      </WhenAllowed>
      <Show when={past().length > 0}>
        <details>
          <summary>Not in force: {past().length}</summary>
          <ul>
            <For each={past()}>
              {(one) => (
                <li>
                  {one.id}, {one.covers} {one.name}, {formatInstant(one.fromAt, props.zone)} to{' '}
                  {formatInstant(one.untilEpochMs, props.zone)}: {one.reason} <small>{one.author}</small>
                  <Show when={one.ended}>
                    {(end) => (
                      <>
                        {' '}
                        Ended early by {end().author}: {end().reason}
                      </>
                    )}
                  </Show>
                </li>
              )}
            </For>
          </ul>
        </details>
      </Show>
    </section>
  )
}
