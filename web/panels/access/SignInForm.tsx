import { createSignal, Show } from 'solid-js'
import { isCodeNeeded, sentenceOf } from '../../state/ask-server.ts'
import { signIn } from '../../state/own-account.ts'
import { isPasskeyBrowser, signInByPasskey } from '../../state/passkeys.ts'

/** Name and password of a person with an account, a code where the account asks for one; or a passkey. */
export function SignInForm() {
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const [asking, setAsking] = createSignal(false)
  const [codeWanted, setCodeWanted] = createSignal(false)
  const attempt = async (task: () => Promise<void>, failed: () => void) => {
    setTrouble(null)
    setAsking(true)
    try {
      await task()
      location.reload()
    } catch (cause) {
      setAsking(false)
      if (isCodeNeeded(cause)) setCodeWanted(true)
      else setTrouble(sentenceOf(cause))
      failed()
    }
  }
  const send = (event: SubmitEvent) => {
    event.preventDefault()
    const form = event.currentTarget as HTMLFormElement
    const said = new FormData(form)
    const code = said.get('code')
    void attempt(
      () =>
        signIn(
          String(said.get('username')),
          String(said.get('password')),
          code === null ? undefined : String(code),
        ),
      () => form.querySelector<HTMLInputElement>(codeWanted() ? '[name=code]' : '[name=password]')?.select(),
    )
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
      <Show when={codeWanted()}>
        <label>
          Code of your app, or a recovery code
          <input name="code" autocomplete="one-time-code" autocapitalize="none" spellcheck={false} required />
        </label>
      </Show>
      <button type="submit" class="primary" disabled={asking()}>
        {asking() ? 'Signing in …' : 'Sign in'}
      </button>
      <Show when={isPasskeyBrowser()}>
        <button
          type="button"
          disabled={asking()}
          onClick={() => void attempt(signInByPasskey, () => undefined)}
        >
          Sign in with a passkey
        </button>
      </Show>
      <Show when={trouble()}>
        <p class="trouble" role="alert">
          {trouble()}
        </p>
      </Show>
      <p>
        <small>
          A forgotten password cannot be found out: an administrator makes a link by which you set another
          one, and takes a lost second factor away.
        </small>
      </p>
    </form>
  )
}
