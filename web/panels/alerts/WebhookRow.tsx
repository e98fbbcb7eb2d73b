import { createSignal, Show } from 'solid-js'
import type { GivenSecret, TestedDelivery, WebhookEntry } from '#contract/alert-delivery.ts'
import type { SigningScheme } from '#domain/alerts/webhook.ts'
import { changeServer, sendServer } from '../../state/ask-server.ts'
import { dayAndTime } from '../../ui/day-and-time.ts'
import { AttemptList } from './AttemptList.tsx'
import { alertKindWords, signingWords } from './alert-kind-words.ts'

/** One webhook: what it takes, how it stands, and what can be done with it. */
export function WebhookRow(props: {
  webhook: WebhookEntry
  /** Address of the webhook at the server. */
  path: string
  change: (task: () => Promise<void>) => Promise<void>
  given: (secret: GivenSecret) => void
}) {
  const [tested, setTested] = createSignal<TestedDelivery | null>(null)
  const [removing, setRemoving] = createSignal(false)
  const test = () =>
    props.change(async () => {
      setTested(null)
      setTested(await sendServer<TestedDelivery>(`${props.path}/test`, {}))
    })
  const replace = (scheme: SigningScheme) =>
    props.change(async () => props.given(await sendServer<GivenSecret>(`${props.path}/secret`, { scheme })))
  const setDisabled = (disabled: boolean) =>
    props.change(() => changeServer('PUT', `${props.path}/standing`, { disabled }))
  return (
    <li class="webhook">
      <h4>{props.webhook.name}</h4>
      <p class="webhook-url">{props.webhook.url}</p>
      <p>{props.webhook.kinds.map((kind) => alertKindWords[kind]).join('; ')}.</p>
      <Show when={props.webhook.disabledAtEpochMs}>
        {(at) => (
          <p class="trouble">
            Nothing is sent to it since {dayAndTime.format(at())}. {props.webhook.disabledWhy}
          </p>
        )}
      </Show>
      <p>
        <Show
          when={props.webhook.scheme}
          fallback="Its secret does not open any more, and nothing can be sent to it. Give it a new one."
        >
          {(scheme) => (
            <>
              {signingWords[scheme()]}, made {dayAndTime.format(props.webhook.secretMadeAtEpochMs)}.
            </>
          )}
        </Show>
        <Show when={props.webhook.earlierSecretEndsAtEpochMs}>
          {(at) => <> The one before signs too until {dayAndTime.format(at())}.</>}
        </Show>
      </p>
      <div class="webhook-verbs">
        <button type="button" onClick={test}>
          Send a test
        </button>
        <button type="button" onClick={() => replace(props.webhook.scheme ?? 'shared-secret')}>
          New secret
        </button>
        <button type="button" onClick={() => setDisabled(props.webhook.disabledAtEpochMs === null)}>
          {props.webhook.disabledAtEpochMs === null ? 'Disable' : 'Enable'}
        </button>
        <Show
          when={removing()}
          fallback={
            <button type="button" onClick={() => setRemoving(true)}>
              Remove
            </button>
          }
        >
          <button type="button" onClick={() => props.change(() => changeServer('DELETE', props.path))}>
            Remove {props.webhook.name} and its secret
          </button>
          <button type="button" onClick={() => setRemoving(false)}>
            Keep it
          </button>
        </Show>
      </div>
      <AttemptList tested={tested()} />
    </li>
  )
}
