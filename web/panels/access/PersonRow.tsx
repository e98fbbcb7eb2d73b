import { createSignal, For, Show } from 'solid-js'
import type { PersonEntry } from '#contract/access.ts'
import type { NewPasswordLink } from '#contract/access-keys.ts'
import { type Role, roles } from '#domain/access/permissions.ts'
import { changeServer, sendServer } from '../../state/ask-server.ts'
import { me } from '../../state/own-account.ts'
import { dayAndTime } from '../../ui/day-and-time.ts'
import type { Change } from './create-changed.ts'
import { siteWords } from './role-words.ts'

/** One person: roles by site, standing, devices. */
export function PersonRow(props: { person: PersonEntry; sites: readonly string[]; change: Change }) {
  const path = (part: string) => `/api/people/${encodeURIComponent(props.person.id)}/${part}`
  const isOneself = () => me()?.person?.signInName === props.person.signInName
  const roleAt = (site: string) => props.person.memberships.find((one) => one.site === site)?.role ?? ''
  const giveRole = (site: string, role: string) =>
    void props.change(() =>
      changeServer('PUT', path('role'), { site, role: role === '' ? null : (role as Role) }),
    )
  const setDisabled = (disabled: boolean) =>
    void props.change(() => changeServer('PUT', path('standing'), { disabled }))
  const endSession = (session: string) =>
    void props.change(() => changeServer('DELETE', path(`sessions/${encodeURIComponent(session)}`)))
  const [link, setLink] = createSignal<NewPasswordLink | null>(null)
  const makeLink = () =>
    void props.change(async () => {
      setLink(null)
      setLink(await sendServer<NewPasswordLink>(path('password-link'), {}))
    })
  return (
    <li class="person">
      <h3>
        {props.person.name} <small>signs in as {props.person.signInName}</small>
      </h3>
      <Show when={props.person.disabledAtEpochMs}>
        {(at) => <p>Disabled since {dayAndTime.format(at())}: cannot sign in.</p>}
      </Show>
      <div class="person-roles">
        <For each={props.sites}>
          {(site) => (
            <label>
              Role at {siteWords(site)}
              <select
                value={roleAt(site)}
                disabled={isOneself()}
                onChange={(event) => giveRole(site, event.currentTarget.value)}
              >
                <option value="">none</option>
                <For each={roles}>{(role) => <option value={role}>{role}</option>}</For>
              </select>
            </label>
          )}
        </For>
      </div>
      <Show when={props.person.governed}>
        <ul>
          <For each={props.person.sessions}>
            {(session) => (
              <li>
                Signed in {dayAndTime.format(session.createdAtEpochMs)}, last heard of about{' '}
                {dayAndTime.format(session.lastSeenAtEpochMs)}:{' '}
                {session.device || 'a device that says nothing of itself'}{' '}
                <button type="button" onClick={() => endSession(session.id)}>
                  End this session
                </button>
              </li>
            )}
          </For>
        </ul>
        <button type="button" onClick={() => setDisabled(props.person.disabledAtEpochMs === null)}>
          {props.person.disabledAtEpochMs === null
            ? 'Disable the account and end its sessions'
            : 'Let sign in again'}
        </button>{' '}
        <button type="button" onClick={makeLink}>
          Make a link for another password
        </button>{' '}
        <Show when={props.person.hasSecondFactor}>
          <button
            type="button"
            onClick={() => void props.change(() => changeServer('DELETE', path('second-factor')))}
          >
            Remove the lost second factor
          </button>
        </Show>
        <Show when={link()}>
          {(made) => (
            <p role="status">
              Give this link to {props.person.name} and nobody else. It sets another password, once, within 24
              hours, ends the sessions, and is not shown again:{' '}
              <code class="invitation-link">{new URL(made().path, location.origin).href}</code>
            </p>
          )}
        </Show>
      </Show>
    </li>
  )
}
