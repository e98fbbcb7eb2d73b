import { createSignal, For, Show } from 'solid-js'
import type { NewInvitation } from '#contract/access.ts'
import { roles } from '#domain/access/permissions.ts'
import { sendServer, sentenceOf } from '../../state/ask-server.ts'
import { roleWords, siteWords } from './role-words.ts'

/** Makes a link by which one person makes an account. */
export function InvitationForm(props: { sites: readonly string[] }) {
  const [made, setMade] = createSignal<NewInvitation | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const send = async (event: SubmitEvent) => {
    event.preventDefault()
    const said = new FormData(event.currentTarget as HTMLFormElement)
    setMade(null)
    setTrouble(null)
    try {
      setMade(
        await sendServer<NewInvitation>('/api/invitations', {
          site: said.get('site'),
          role: said.get('role'),
        }),
      )
    } catch (cause) {
      setTrouble(sentenceOf(cause))
    }
  }
  return (
    <form class="access-form" onSubmit={send}>
      <h3>Invite a person</h3>
      <label>
        To
        <select name="site">
          <For each={props.sites.toReversed()}>
            {(site) => <option value={site}>{siteWords(site)}</option>}
          </For>
        </select>
      </label>
      <label>
        As
        <select name="role">
          <For each={roles}>{(role) => <option value={role}>{roleWords[role]}</option>}</For>
        </select>
      </label>
      <button type="submit">Make a link</button>
      <Show when={made()}>
        {(invitation) => (
          <p role="status">
            Give this link to that person and nobody else. It makes one account, once, within seven days, and
            is not shown again:{' '}
            <code class="invitation-link">{new URL(invitation().path, location.origin).href}</code>
          </p>
        )}
      </Show>
      <Show when={trouble()}>
        <p class="trouble" role="alert">
          {trouble()}
        </p>
      </Show>
    </form>
  )
}
