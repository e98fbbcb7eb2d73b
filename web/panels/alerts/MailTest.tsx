import { createSignal, createUniqueId, Show } from 'solid-js'
import type { TestedDelivery } from '#contract/alert-delivery.ts'
import { sendServer, sentenceOf } from '../../state/ask-server.ts'
import { sitePath } from '../../state/open-site.ts'
import { AttemptList } from './AttemptList.tsx'

/** Sends a test by mail, to see before it matters whether the mail server takes it. */
export function MailTest(props: { site: string }) {
  const id = createUniqueId()
  const [tested, setTested] = createSignal<TestedDelivery | null>(null)
  const [sending, setSending] = createSignal(false)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const send = async (event: SubmitEvent) => {
    event.preventDefault()
    const to = new FormData(event.currentTarget as HTMLFormElement).get('to')
    setTested(null)
    setTrouble(null)
    setSending(true)
    await sendServer<TestedDelivery>(sitePath(props.site, '/mail/test'), { to }).then(setTested, (cause) =>
      setTrouble(sentenceOf(cause)),
    )
    setSending(false)
  }
  return (
    <form class="access-form mail-test" onSubmit={send}>
      <label for={id}>Send a test by mail to</label>
      <input id={id} name="to" type="email" autocomplete="email" required />
      <button type="submit" disabled={sending()}>
        {sending() ? 'Sending …' : 'Send it'}
      </button>
      <AttemptList tested={tested()} />
      <Show when={trouble()}>
        <p class="trouble" role="alert">
          {trouble()}
        </p>
      </Show>
    </form>
  )
}
