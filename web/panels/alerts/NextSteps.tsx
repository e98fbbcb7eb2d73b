import { For, Show } from 'solid-js'
import type { ListedAlert } from '#contract/alerts.ts'
import { type AlertAction, nextActions } from '#domain/alerts/alert-actions.ts'
import { alertsDocument } from '../../state/alerts.ts'
import { isSignedOut, mayHere } from '../../state/own-account.ts'
import { rememberedName } from '../../state/own-name.ts'
import { siteDocument } from '../../state/site-document.ts'
import { beginStep, stepDraft } from '../../state/step-draft.ts'
import { StepForm } from './StepForm.tsx'
import { stepPermission, stepWords } from './step-words.ts'

/** The steps that come next for an alert, as buttons; the form of the one that is being written. */
export function NextSteps(props: { alert: ListedAlert; latest?: number }) {
  const site = () => siteDocument()?.facts.id ?? ''
  const steps = () =>
    nextActions({ ...props.alert, attempts: props.alert.attempts ?? [] }).filter((kind) =>
      mayHere(site(), stepPermission[kind]),
    )
  const draft = () => {
    const written = stepDraft()
    return written?.site === site() && written.alert === props.alert.alert ? written : null
  }
  const begin = (kind: AlertAction['kind']) =>
    beginStep({
      site: site(),
      alert: props.alert.alert,
      kind,
      latest: props.latest ?? alertsDocument()?.latest ?? 0,
      words: '',
      finding: null,
      author: rememberedName(),
      meanwhile: [],
    })
  const nameOf = (kind: AlertAction['kind']) =>
    kind === 'verify' && props.alert.verified ? 'Verify anew' : stepWords[kind].button
  return (
    <Show
      when={draft() === null}
      fallback={
        // What others do meanwhile changes the alert, not what is being written.
        <Show when={draft()?.kind} keyed>
          {(_kind) => (
            <Show when={draft()}>
              {(begun) => <StepForm draft={begun()} isNext={steps().includes(begun().kind)} />}
            </Show>
          )}
        </Show>
      }
    >
      <Show when={!isSignedOut() && steps().length > 0}>
        <div class="buttons alert-steps">
          <For each={steps()}>
            {(kind, place) => (
              <button
                type="button"
                class={place() === steps().length - 1 ? 'primary' : ''}
                aria-label={`${nameOf(kind)} alert ${props.alert.alert}`}
                onClick={() => begin(kind)}
              >
                {nameOf(kind)}
              </button>
            )}
          </For>
        </div>
      </Show>
    </Show>
  )
}
