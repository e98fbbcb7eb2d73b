import { For, Show } from 'solid-js'
import type { OwnKeys, PasskeyEntry } from '#contract/access-keys.ts'
import { changeServer } from '../../state/ask-server.ts'
import { isPasskeyBrowser, registerPasskey } from '../../state/passkeys.ts'
import { dayAndTime } from '../../ui/day-and-time.ts'
import type { Change } from './create-changed.ts'

/** Passkeys of whoever is signed in: made, named, removed; where there can be none, why. */
export function PasskeysPart(props: { keys: OwnKeys; change: Change }) {
  const add = async (event: SubmitEvent) => {
    event.preventDefault()
    const form = event.currentTarget as HTMLFormElement
    const said = new FormData(form)
    const text = (name: string) => String(said.get(name))
    if (await props.change(() => registerPasskey(text('name'), text('password')))) form.reset()
  }
  const hindrance = () =>
    isPasskeyBrowser() ? props.keys.passkeyHindrance : 'This browser knows no passkeys at this address.'
  return (
    <section aria-label="Passkeys">
      <h3>Passkeys</h3>
      <Show
        when={props.keys.passkeys.length > 0}
        fallback={
          <p>None yet. With one, a device signs you in by its own lock, without name and password.</p>
        }
      >
        <ul class="people-list">
          <For each={props.keys.passkeys}>
            {(passkey) => <PasskeyRow passkey={passkey} change={props.change} />}
          </For>
        </ul>
      </Show>
      <Show when={hindrance() === null} fallback={<p>{hindrance()}</p>}>
        <form class="access-form" onSubmit={add}>
          <label>
            What you call this device
            <input name="name" maxLength={60} autocomplete="off" required />
          </label>
          <label>
            Your password
            <input name="password" type="password" autocomplete="current-password" required />
          </label>
          <button type="submit">Make a passkey on this device</button>
        </form>
      </Show>
    </section>
  )
}

function PasskeyRow(props: { passkey: PasskeyEntry; change: Change }) {
  const path = () => `/api/me/passkeys/${encodeURIComponent(props.passkey.id)}`
  const rename = (name: string) => {
    if (name.trim() !== props.passkey.name) void props.change(() => changeServer('PUT', path(), { name }))
  }
  const remove = (event: SubmitEvent) => {
    event.preventDefault()
    const password = String(new FormData(event.currentTarget as HTMLFormElement).get('password'))
    void props.change(() => changeServer('DELETE', path(), { password }))
  }
  const used = () =>
    props.passkey.lastUsedAtEpochMs === null
      ? 'not used yet'
      : `last used ${dayAndTime.format(props.passkey.lastUsedAtEpochMs)}`
  return (
    <li class="person">
      <label>
        Name{' '}
        <input
          value={props.passkey.name}
          maxLength={60}
          onChange={(event) => rename(event.currentTarget.value)}
        />
      </label>
      <p>
        For {props.passkey.host}, made {dayAndTime.format(props.passkey.createdAtEpochMs)}, {used()}.
      </p>
      <details>
        <summary>Remove it</summary>
        <form class="access-form" onSubmit={remove}>
          <label>
            Your password
            <input name="password" type="password" autocomplete="current-password" required />
          </label>
          <button type="submit">Remove {props.passkey.name}</button>
        </form>
      </details>
    </li>
  )
}
