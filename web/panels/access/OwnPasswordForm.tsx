import { createSignal, Show } from 'solid-js'
import { changeServer } from '../../state/ask-server.ts'
import { chosenPassword } from './chosen-password.ts'
import type { Change } from './create-changed.ts'
import { NewPasswordFields } from './NewPasswordFields.tsx'

/** Another password for oneself: the old one is asked for, and other devices are signed out. */
export function OwnPasswordForm(props: { change: Change }) {
  const [said, setSaid] = createSignal<string | null>(null)
  const send = async (event: SubmitEvent) => {
    event.preventDefault()
    const form = event.currentTarget as HTMLFormElement
    const typed = new FormData(form)
    setSaid(null)
    const taken = await props.change(async () => {
      await changeServer('PUT', '/api/me/password', {
        oldPassword: String(typed.get('old')),
        password: chosenPassword(typed),
      })
    })
    if (!taken) return
    form.reset()
    setSaid('The password is changed. Every other device has to sign in again.')
  }
  return (
    <form class="access-form" onSubmit={send}>
      <h3>Password</h3>
      <label>
        Password until now
        <input name="old" type="password" autocomplete="current-password" required />
      </label>
      <NewPasswordFields />
      <button type="submit">Change the password</button>
      <Show when={said()}>
        <p role="status">{said()}</p>
      </Show>
    </form>
  )
}
