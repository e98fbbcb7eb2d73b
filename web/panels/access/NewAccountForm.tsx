import { Show } from 'solid-js'
import type { Membership } from '#domain/access/membership.ts'
import { sendServer } from '../../state/ask-server.ts'
import { invitation, makeAccount } from '../../state/own-account.ts'
import { chosenPassword } from './chosen-password.ts'
import { createLinkForm } from './create-link-form.ts'
import { NewPasswordFields } from './NewPasswordFields.tsx'
import { siteWords } from './role-words.ts'
import { Troubles } from './Troubles.tsx'

/** The account of an invitation: its person chooses names and a password. */
export function NewAccountForm() {
  const { offered, troubles, asking, send } = createLinkForm(
    () => sendServer<Membership>('/api/invitations/look', { token: invitation() }),
    async (said) =>
      makeAccount({
        name: String(said.get('name') ?? ''),
        signInName: String(said.get('username') ?? ''),
        password: chosenPassword(said),
      }),
  )
  return (
    <form class="access-form" onSubmit={send}>
      <h2 id="access-title">Your account</h2>
      <Show when={offered()}>
        {(membership) => (
          <>
            <p>
              You were invited to {siteWords(membership().site)} as {membership().role}.
            </p>
            <label>
              Your name, with which records are signed
              <input name="name" autocomplete="name" required />
            </label>
            <label>
              Name to sign in with
              <input
                name="username"
                autocomplete="username"
                autocapitalize="none"
                spellcheck={false}
                required
              />
            </label>
            <NewPasswordFields />
            <button type="submit" class="primary" disabled={asking()}>
              {asking() ? 'Making the account …' : 'Make the account'}
            </button>
          </>
        )}
      </Show>
      <Troubles sentences={troubles()} />
    </form>
  )
}
