import { Match, Show, Switch } from 'solid-js'
import { invitation, me, passwordLink, putAccessAside } from '../../state/own-account.ts'
import { siteDocument } from '../../state/site-document.ts'
import { NewAccountForm } from './NewAccountForm.tsx'
import { NewPasswordForm } from './NewPasswordForm.tsx'
import { SignInForm } from './SignInForm.tsx'
import './access.css'

/** Stands over the page while the server wants to know who asks. */
export function AccessSheet() {
  // What is already on the screen may be worked with: along the works a password is not always at hand.
  const mayWait = () => invitation() === null && passwordLink() === null && siteDocument() !== null
  const open = (dialog: HTMLDialogElement) => {
    queueMicrotask(() => dialog.isConnected && dialog.showModal())
  }
  return (
    <dialog
      class="key-sheet access-sheet"
      aria-labelledby="access-title"
      ref={open}
      onCancel={(event) => {
        event.preventDefault()
        if (mayWait()) putAccessAside()
      }}
    >
      <Show when={me()} fallback={<p>Asking the server …</p>}>
        {(known) => (
          <Show
            when={known().hindrance === null}
            fallback={
              <>
                <h2 id="access-title">Nobody can sign in over this connection</h2>
                <p role="alert">{known().hindrance}</p>
              </>
            }
          >
            <Switch fallback={<NobodyYet />}>
              <Match when={invitation() !== null}>
                <NewAccountForm />
              </Match>
              <Match when={passwordLink() !== null}>
                <NewPasswordForm />
              </Match>
              <Match when={known().accounts === 'needed'}>
                <SignInForm />
              </Match>
            </Switch>
          </Show>
        )}
      </Show>
      <Show when={mayWait()}>
        <p>
          Until you sign in nothing new is shown, and what you write stays on this device.{' '}
          <button type="button" onClick={() => putAccessAside()}>
            Not now
          </button>
        </p>
      </Show>
    </dialog>
  )
}

const NobodyYet = () => (
  <>
    <h2 id="access-title">Nobody has an account here yet</h2>
    <p>
      Whoever runs this server finds a link for the first administrator in what it printed at its start. Open
      that link here. It works once, within 24 hours; a new start prints another one.
    </p>
  </>
)
