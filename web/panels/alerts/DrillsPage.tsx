import { createSignal, createUniqueId, For, Show } from 'solid-js'
import type { AlertRecord } from '#contract/alerts.ts'
import { alertsDocument, alertsKnown, refreshAlerts } from '../../state/alerts.ts'
import { openAlert } from '../../state/alerts-page.ts'
import { sendServer } from '../../state/ask-server.ts'
import { dutiesDocument } from '../../state/duties.ts'
import { sitePath } from '../../state/open-site.ts'
import { isSignedOut, mayHere } from '../../state/own-account.ts'
import { rememberedName, rememberName } from '../../state/own-name.ts'
import { siteDocument } from '../../state/site-document.ts'
import { announce } from '../../ui/announce.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { createFaults } from '../create-faults.tsx'
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

/** An exercise to hold now: told to those on duty like an alert, and marked as an exercise. */
function DrillForm(props: { site: string; duty: string | null }) {
  const form = createUniqueId()
  const faults = createFaults<'duty' | 'reason' | 'author'>(form, (column) =>
    column === 'duty' || column === 'reason' || column === 'author' ? column : null,
  )
  const duties = () => [
    ...new Set([
      ...(props.duty === null ? [] : [props.duty]),
      ...(dutiesDocument()?.duties ?? []).map(({ duty }) => duty),
      ...(siteDocument()?.triggerLevels ?? []).map(({ owner }) => owner),
    ]),
  ]
  const [duty, setDuty] = createSignal<string | null>(null)
  const [reason, setReason] = createSignal('Monthly test of the chain')
  const [author, setAuthor] = createSignal(rememberedName())
  const [sending, setSending] = createSignal(false)
  const hold = async (event: SubmitEvent) => {
    event.preventDefault()
    faults.clear()
    rememberName(author())
    setSending(true)
    try {
      const record = await sendServer<AlertRecord>(sitePath(props.site, '/drills'), {
        duty: duty() ?? duties()[0] ?? '',
        reason: reason(),
        author: author(),
      })
      announce(`Drill ${record.alert.alert} is being told`)
      refreshAlerts(props.site).catch(() => undefined)
      openAlert(record.alert.alert)
    } catch (cause) {
      faults.take(cause)
    } finally {
      setSending(false)
    }
  }
  return (
    <form class="step-form" aria-label="Hold a drill" onSubmit={(event) => void hold(event)}>
      <div class="layout-field">
        <label for={`${form}-duty`}>Duty to be tested</label>
        <select
          id={`${form}-duty`}
          {...faults.troubled('duty')}
          onInput={(event) => setDuty(event.currentTarget.value)}
        >
          <For each={duties()}>
            {(one) => (
              <option value={one} selected={one === (duty() ?? duties()[0])}>
                {one}
              </option>
            )}
          </For>
        </select>
        {faults.textAt('duty')}
      </div>
      <div class="layout-field">
        <label for={`${form}-reason`}>Why it is held</label>
        <input
          id={`${form}-reason`}
          {...faults.troubled('reason')}
          type="text"
          required
          maxlength="2000"
          value={reason()}
          onInput={(event) => setReason(event.currentTarget.value)}
        />
        <small>Those on duty get it like an alert, marked as an exercise, and acknowledge it.</small>
        {faults.textAt('reason')}
      </div>
      <div class="layout-field">
        <label for={`${form}-author`}>Your name</label>
        <input
          id={`${form}-author`}
          {...faults.troubled('author')}
          type="text"
          required
          maxlength="200"
          autocomplete="name"
          value={author()}
          onInput={(event) => setAuthor(event.currentTarget.value)}
        />
        {faults.textAt('author')}
      </div>
      {faults.summary()}
      <div class="buttons">
        <WhenAllowed to="change-records">
          <button type="submit" class="primary" disabled={sending() || duties().length === 0}>
            Hold the drill now
          </button>
        </WhenAllowed>
      </div>
    </form>
  )
}
