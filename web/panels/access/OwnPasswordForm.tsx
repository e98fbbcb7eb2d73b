import { createSignal, Show } from 'solid-js'
import { changeServer } from '../../state/ask-server.ts'
import { NewPasswordFields } from './NewPasswordFields.tsx'

/** Another password for oneself: the old one is asked for, and other devices are signed out. */
export function OwnPasswordForm(props: { change: (task: () => Promise<unknown>) => Promise<boolean> }) {
  const [said, setSaid] = createSignal<string | null>(null)
  const send = async (event: SubmitEvent) => {
    event.preventDefault()
    const form = event.currentTarget as HTMLFormElement
    const typed = new FormData(form)
    setSaid(null)
    const taken = await props.change(async () => {
      if (typed.get('password') !== typed.get('again'))
        throw new Error('The two passwords differ. Type the same one twice.')
      await changeServer('PUT', '/api/me/password', {
        oldPassword: String(typed.get('old')),
        password: String(typed.get('password')),
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
