import { createSignal, For, Show } from 'solid-js'
import type { Membership } from '#domain/access/membership.ts'
import { sendServer } from '../../state/ask-server.ts'
import { invitation, makeAccount } from '../../state/own-account.ts'
import { NewPasswordFields } from './NewPasswordFields.tsx'
import { siteWords } from './role-words.ts'
import { sentencesOf } from './sentences-of.ts'

/** The account of an invitation: its person chooses names and a password. */
export function NewAccountForm() {
  const [offered, setOffered] = createSignal<Membership | null>(null)
  const [troubles, setTroubles] = createSignal<readonly string[]>([])
  const [asking, setAsking] = createSignal(false)
  const fail = (cause: unknown) => setTroubles(sentencesOf(cause))
  sendServer<Membership>('/api/invitations/look', { token: invitation() }).then(setOffered, fail)
  const send = async (event: SubmitEvent) => {
    event.preventDefault()
    const said = new FormData(event.currentTarget as HTMLFormElement)
    const text = (name: string) => String(said.get(name) ?? '')
    setTroubles([])
    if (text('password') !== text('again')) {
      setTroubles(['The two passwords differ. Type the same one twice.'])
      return
    }
    setAsking(true)
    try {
      await makeAccount({ name: text('name'), signInName: text('username'), password: text('password') })
      location.reload()
    } catch (cause) {
      fail(cause)
      setAsking(false)
    }
  }
  return (
    <form class="access-form" onSubmit={send}>
      <h2 id="access-title">Your account</h2>
      <Show when={offered()}>
        {(membership) => (
          <>
            <p>
              You were invited to {siteWords(membership().site)} as {membership().role}.
            </p>
            <label>
              Your name, with which records are signed
              <input name="name" autocomplete="name" required />
            </label>
            <label>
              Name to sign in with
              <input
                name="username"
                autocomplete="username"
                autocapitalize="none"
                spellcheck={false}
                required
              />
            </label>
            <NewPasswordFields />
            <button type="submit" class="primary" disabled={asking()}>
              {asking() ? 'Making the account …' : 'Make the account'}
            </button>
          </>
        )}
      </Show>
      <For each={troubles()}>
        {(trouble) => (
          <p class="trouble" role="alert">
            {trouble}
          </p>
        )}
      </For>
    </form>
  )
}
