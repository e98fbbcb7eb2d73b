import { For, Show } from 'solid-js'
import type { OwnKeys } from '#contract/access-keys.ts'
import { changeServer } from '../../state/ask-server.ts'
import { dayAndTime } from '../../ui/day-and-time.ts'
import type { Change } from './create-changed.ts'

/** Devices on which one is signed in besides this one, and the way to sign all of them out. */
export function OtherSessions(props: { keys: OwnKeys; change: Change }) {
  const end = (event: SubmitEvent) => {
    event.preventDefault()
    const password = String(new FormData(event.currentTarget as HTMLFormElement).get('password'))
    void props.change(() => changeServer('DELETE', '/api/me/other-sessions', { password }))
  }
  return (
    <section aria-label="Other devices">
      <h3>Other devices</h3>
      <Show
        when={props.keys.otherSessions.length > 0}
        fallback={<p>You are signed in on no other device.</p>}
      >
        <ul>
          <For each={props.keys.otherSessions}>
            {(session) => (
              <li>
                Signed in {dayAndTime.format(session.createdAtEpochMs)}, last heard of about{' '}
                {dayAndTime.format(session.lastSeenAtEpochMs)}:{' '}
                {session.device || 'a device that says nothing of itself'}
              </li>
            )}
          </For>
        </ul>
        <form class="access-form" onSubmit={end}>
          <label>
            Your password
            <input name="password" type="password" autocomplete="current-password" required />
          </label>
          <button type="submit">Sign out every other device</button>
        </form>
      </Show>
    </section>
  )
}
