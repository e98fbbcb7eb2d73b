import { createSignal, createUniqueId, For, onMount, Show } from 'solid-js'
import { type AlertRecord, stepPath } from '#contract/alerts.ts'
import { findings } from '#domain/alerts/alert-event.ts'
import { refreshAlerts } from '../../state/alerts.ts'
import { askServer, ServerRefused, sendServer } from '../../state/ask-server.ts'
import { sitePath } from '../../state/open-site.ts'
import { rememberName } from '../../state/own-name.ts'
import { actionOf, changeStep, leaveStep, type StepDraft, stepDraft } from '../../state/step-draft.ts'
import { announce } from '../../ui/announce.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { createFaults } from '../create-faults.tsx'
import { siteNaming } from './alert-naming.ts'
import { eventSentence } from './event-words.ts'
import { findingMeanings } from './finding-words.ts'
import { stepWords } from './step-words.ts'

type Field = 'words' | 'finding' | 'author'

/** The step that is being written: what is said with it, and who says it. `isNext`: it can be taken now. */
export function StepForm(props: { draft: StepDraft; isNext: boolean }) {
  const form = createUniqueId()
  const { site, alert, kind } = props.draft
  const words = stepWords[kind]
  const faults = createFaults<Field>(form, (column) =>
    column === 'finding' ? 'finding' : column === 'author' ? 'author' : column === undefined ? null : 'words',
  )
  const draft = () => stepDraft() ?? props.draft
  const [sending, setSending] = createSignal(false)
  let first: HTMLElement | undefined
  onMount(() => first?.focus())

  const send = async (event: SubmitEvent) => {
    event.preventDefault()
    faults.clear()
    const { latest, author } = draft()
    const step = actionOf(draft())
    if (step === null) return
    rememberName(author)
    setSending(true)
    try {
      await sendServer<AlertRecord>(stepPath(site, alert, kind), { step, author, latest })
      announce(`Alert ${alert} is ${words.done}`)
      leaveStep()
      // Where the list cannot be had now, it says itself that it is not of now.
      refreshAlerts(site).catch(() => undefined)
    } catch (cause) {
      if (cause instanceof ServerRefused && cause.problem.status === 409) await lookAgain(cause, latest)
      else faults.take(cause)
    } finally {
      setSending(false)
    }
  }

  /** What others did since this was begun; what is typed stays. */
  const lookAgain = async (refused: ServerRefused, seen: number) => {
    try {
      const record = await askServer<AlertRecord>(sitePath(site, `/alerts/${alert}`))
      const naming = siteNaming()
      const meanwhile = record.events
        .filter(({ number }) => number > seen)
        .map(
          (one) =>
            `${formatShortInstant(one.atEpochMs, naming.timeZone)}: ${eventSentence(one, naming, (id) => record.names[id] ?? id)}`,
        )
      changeStep({ latest: record.latest, meanwhile })
      refreshAlerts(site).catch(() => undefined)
    } catch {
      faults.take(refused)
    }
  }

  return (
    <form
      class="step-form"
      aria-label={`${words.button} alert ${alert}`}
      onSubmit={(event) => void send(event)}
    >
      <Show when={draft().meanwhile.length > 0 || !props.isNext}>
        <div class="trouble" role="alert">
          <p>
            Somebody acted on this alert meanwhile; nothing was saved. What you typed is kept.{' '}
            {props.isNext
              ? 'Read what happened, then send it again or leave it.'
              : 'This step cannot be taken now.'}
          </p>
          <ul>
            <For each={draft().meanwhile}>{(sentence) => <li>{sentence}</li>}</For>
          </ul>
        </div>
      </Show>
      <Show when={kind === 'verify'}>
        <fieldset id={`${form}-finding`} tabindex="-1">
          <legend>What it was</legend>
          <For each={findings}>
            {(finding, place) => (
              <label class="step-choice">
                <input
                  type="radio"
                  name={`${form}-finding`}
                  required
                  ref={(element) => {
                    if (place() === 0) first = element
                  }}
                  checked={draft().finding === finding}
                  onInput={() => changeStep({ finding })}
                />
                {findingMeanings[finding]}
              </label>
            )}
          </For>
          {faults.textAt('finding')}
        </fieldset>
      </Show>
      <div class="layout-field">
        <label for={`${form}-words`}>{words.words}</label>
        <textarea
          id={`${form}-words`}
          {...faults.troubled('words')}
          ref={(element) => {
            if (kind !== 'verify') first = element
          }}
          required={words.required}
          maxlength="2000"
          value={draft().words}
          onInput={(event) => changeStep({ words: event.currentTarget.value })}
        />
        <small>{words.hint}</small>
        {faults.textAt('words')}
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
          value={draft().author}
          onInput={(event) => changeStep({ author: event.currentTarget.value })}
        />
        {faults.textAt('author')}
      </div>
      {faults.summary()}
      <div class="buttons">
        <WhenAllowed to={kind === 'acknowledge' ? 'add' : 'change-records'}>
          <button type="submit" class="primary" disabled={sending() || !props.isNext}>
            {words.button}
          </button>
        </WhenAllowed>
        <button type="button" onClick={leaveStep}>
          Leave it
        </button>
      </div>
    </form>
  )
}
