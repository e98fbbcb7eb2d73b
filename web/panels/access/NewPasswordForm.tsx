import { createSignal, For, Show } from 'solid-js'
import type { PasswordLinkOwner } from '#contract/access-keys.ts'
import { sendServer } from '../../state/ask-server.ts'
import { passwordLink } from '../../state/own-account.ts'
import { NewPasswordFields } from './NewPasswordFields.tsx'
import { sentencesOf } from './sentences-of.ts'

/** Another password by a link that an administrator made. */
export function NewPasswordForm() {
  const [owner, setOwner] = createSignal<PasswordLinkOwner | null>(null)
  const [troubles, setTroubles] = createSignal<readonly string[]>([])
  const [asking, setAsking] = createSignal(false)
  const fail = (cause: unknown) => setTroubles(sentencesOf(cause))
  sendServer<PasswordLinkOwner>('/api/password-links/look', { token: passwordLink() }).then(setOwner, fail)
  const send = async (event: SubmitEvent) => {
    event.preventDefault()
    const said = new FormData(event.currentTarget as HTMLFormElement)
    setTroubles([])
    if (said.get('password') !== said.get('again')) {
      setTroubles(['The two passwords differ. Type the same one twice.'])
      return
    }
    setAsking(true)
    try {
      await sendServer('/api/password-links/use', {
        token: passwordLink(),
        password: String(said.get('password')),
      })
      // Signing in asks for the password again, and for a code where the account has a second factor.
      location.reload()
    } catch (cause) {
      fail(cause)
      setAsking(false)
    }
  }
  return (
    <form class="access-form" onSubmit={send}>
      <h2 id="access-title">Another password</h2>
      <Show when={owner()}>
        {(known) => (
          <>
            <p>For {known().name}. Every device on which you are signed in will have to sign in again.</p>
            <input
              name="username"
              autocomplete="username"
              value={known().signInName}
              readOnly
              aria-label="Name to sign in with"
            />
            <NewPasswordFields />
            <button type="submit" class="primary" disabled={asking()}>
              Set this password
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
