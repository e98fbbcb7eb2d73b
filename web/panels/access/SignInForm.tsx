import { createSignal, Show } from 'solid-js'
import { sentenceOf } from '../../state/ask-server.ts'
import { signIn } from '../../state/own-account.ts'

/** Name and password of a person with an account. */
export function SignInForm() {
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const [asking, setAsking] = createSignal(false)
  const send = async (event: SubmitEvent) => {
    event.preventDefault()
    const form = event.currentTarget as HTMLFormElement
    const said = new FormData(form)
    setTrouble(null)
    setAsking(true)
    try {
      await signIn(String(said.get('username')), String(said.get('password')))
      location.reload()
    } catch (cause) {
      setTrouble(sentenceOf(cause))
      setAsking(false)
      form.querySelector<HTMLInputElement>('[name=password]')?.select()
    }
  }
  return (
    <form class="access-form" onSubmit={send}>
      <h2 id="access-title">Sign in</h2>
      <label>
        Name to sign in with
        <input name="username" autocomplete="username" autocapitalize="none" spellcheck={false} required />
      </label>
      <label>
        Password
        <input name="password" type="password" autocomplete="current-password" required />
      </label>
      <button type="submit" class="primary" disabled={asking()}>
        {asking() ? 'Signing in …' : 'Sign in'}
      </button>
      <Show when={trouble()}>
        <p class="trouble" role="alert">
          {trouble()}
        </p>
      </Show>
      <p>
        <small>A forgotten password cannot be found out: an administrator invites you anew.</small>
      </p>
    </form>
  )
}
