import { createSignal, For, Show } from 'solid-js'
import type { Membership } from '#domain/access/membership.ts'
import { shortestPassword } from '#domain/access/person-rules.ts'
import { ServerRefused, sendServer, sentenceOf } from '../../state/ask-server.ts'
import { invitation, makeAccount } from '../../state/own-account.ts'
import { siteWords } from './role-words.ts'

/** The account of an invitation: its person chooses names and a password. */
export function NewAccountForm() {
  const [offered, setOffered] = createSignal<Membership | null>(null)
  const [troubles, setTroubles] = createSignal<readonly string[]>([])
  const [asking, setAsking] = createSignal(false)
  const fail = (cause: unknown) => {
    const issues = cause instanceof ServerRefused ? (cause.problem.issues ?? []) : []
    setTroubles(issues.length > 0 ? issues.map(({ message }) => message) : [sentenceOf(cause)])
  }
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
            <label>
              Password
              <input
                name="password"
                type="password"
                autocomplete="new-password"
                aria-describedby="password-rule"
                required
              />
            </label>
            <small id="password-rule">
              At least {shortestPassword} characters; a few words in a row will do. Not your own name, and
              none that everybody tries.
            </small>
            <label>
              The same password again
              <input name="again" type="password" autocomplete="new-password" required />
            </label>
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
