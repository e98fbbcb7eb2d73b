import { For, onMount, Show } from 'solid-js'
import { type AlertRecord, stepPath } from '#contract/alerts.ts'
import { findings } from '#domain/alerts/alert-event.ts'
import { refreshAlerts } from '../../state/alerts.ts'
import { askServer, ServerRefused, sendServer } from '../../state/ask-server.ts'
import { sitePath } from '../../state/open-site.ts'
import { actionOf, changeStep, leaveStep, type StepDraft, stepDraft } from '../../state/step-draft.ts'
import { announce } from '../../ui/announce.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { WordsField } from '../signed/WordsField.tsx'
import { siteNaming } from './alert-naming.ts'
import { eventSentence } from './event-words.ts'
import { findingMeanings } from './finding-words.ts'
import { stepWords } from './step-words.ts'

/** The step that is being written: what is said with it, and who says it. `isNext`: it can be taken now. */
export function StepForm(props: { draft: StepDraft; isNext: boolean }) {
  const { site, alert, kind } = props.draft
  const words = stepWords[kind]
  const draft = () => stepDraft() ?? props.draft
  const form = createSignedForm<'words' | 'finding'>(
    (column) => (column === 'finding' ? 'finding' : 'words'),
    [() => draft().author, (author) => changeStep({ author })],
  )
  let first: HTMLElement | undefined
  onMount(() => first?.focus())

  const take = async (author: string) => {
    const { latest } = draft()
    const step = actionOf(draft())
    if (step === null) return
    try {
      await sendServer<AlertRecord>(stepPath(site, alert, kind), { step, author, latest })
    } catch (cause) {
      if (!(cause instanceof ServerRefused && cause.problem.status === 409)) throw cause
      await lookAgain(cause, latest)
      return
    }
    announce(`Alert ${alert} is ${words.done}`)
    leaveStep()
    // Where the list cannot be had now, it says itself that it is not of now.
    refreshAlerts(site).catch(() => undefined)
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
      throw refused
    }
  }

  return (
    <form class="step-form" aria-label={`${words.button} alert ${alert}`} onSubmit={form.submits(take)}>
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
        <fieldset id={form.idOf('finding')} tabindex="-1">
          <legend>What it was</legend>
          <For each={findings}>
            {(finding, place) => (
              <label class="step-choice">
                <input
                  type="radio"
                  name={form.idOf('finding')}
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
          {form.faults.textAt('finding')}
        </fieldset>
      </Show>
      <WordsField
        form={form}
        field="words"
        label={words.words}
        hint={words.hint}
        mostCharacters={2000}
        mayBeEmpty={!words.required}
        first={kind !== 'verify'}
        value={draft().words}
        write={(said) => changeStep({ words: said })}
      />
      <AuthorField form={form} />
      {form.faults.summary()}
      <div class="buttons">
        <WhenAllowed to={kind === 'acknowledge' ? 'add' : 'change-records'}>
          <button type="submit" class="primary" disabled={form.sending() || !props.isNext}>
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
