import { For, Show } from 'solid-js'
import { alertsDocument, alertsKnown } from '../../state/alerts.ts'
import { openAlert } from '../../state/alerts-page.ts'
import { isSignedOut, mayHere } from '../../state/own-account.ts'
import { siteDocument } from '../../state/site-document.ts'
import { DrillForm } from './DrillForm.tsx'
import { drillEvidence, drillStandingSentence } from './drill-words.ts'

/** Exercises of the chain: whether one is due, one to hold now, and what earlier ones showed. */
export function DrillsPage() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const held = () =>
    (alertsDocument()?.alerts ?? []).flatMap((alert) =>
      alert.cause.kind === 'drill' ? [{ ...alert, duty: alert.cause.duty }] : [],
    )
  const notKnown = () => {
    const standing = alertsKnown()
    return standing.kind === 'present' ? null : standing.sentence
  }
  return (
    <section class="alerts-page" aria-label="Drills">
      <Show when={notKnown()}>
        {(sentence) => (
          <p class="trouble" role="status">
            {sentence()}
          </p>
        )}
      </Show>
      <Show when={alertsDocument()}>
        {(document) => (
          <>
            <p classList={{ trouble: document().drill !== null && document().drill?.heldEpochMs === null }}>
              {drillStandingSentence(document().drill, zone())}
            </p>
            <Show when={!isSignedOut() && mayHere(document().site, 'change-records')}>
              <DrillForm site={document().site} duty={document().drill?.duty ?? null} />
            </Show>
            <section class="alert-group" aria-label="Drills held">
              <h2>
                Open, or closed in the last 90 days <small>{held().length}</small>
              </h2>
              <Show when={held().length > 0} fallback={<p class="waiting">None is on record here.</p>}>
                <ul class="alert-drills">
                  <For each={held()}>
                    {(drill) => (
                      <li>
                        <button type="button" onClick={() => openAlert(drill.alert)}>
                          Drill {drill.alert}, {drill.duty}
                        </button>{' '}
                        {drillEvidence(drill, zone())}
                      </li>
                    )}
                  </For>
                </ul>
              </Show>
            </section>
          </>
        )}
      </Show>
    </section>
  )
}
