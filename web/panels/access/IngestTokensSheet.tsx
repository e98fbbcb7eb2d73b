import { createSignal, For, Show } from 'solid-js'
import type { IngestTokenEntry, NewIngestToken } from '#contract/access-keys.ts'
import { askServer, changeServer, sendServer } from '../../state/ask-server.ts'
import { sitePath } from '../../state/open-site.ts'
import { siteDocument } from '../../state/site-document.ts'
import { dayAndTime } from '../../ui/day-and-time.ts'
import { createChanged } from './create-changed.ts'
import { ModalSheet } from './ModalSheet.tsx'

/** Tokens with which programs add readings at the open site, for its administrators. */
export function IngestTokensSheet(props: { closed: () => void }) {
  const path = sitePath(siteDocument()?.facts.id ?? '', '/ingest-tokens')
  const tokens = createChanged(() => askServer<{ tokens: readonly IngestTokenEntry[] }>(path))
  const listed = () => tokens.known()?.tokens ?? []
  const [made, setMade] = createSignal<string | null>(null)
  const make = (event: SubmitEvent) => {
    event.preventDefault()
    const form = event.currentTarget as HTMLFormElement
    const name = String(new FormData(form).get('name'))
    void tokens.change(async () => {
      setMade(null)
      setMade((await sendServer<NewIngestToken>(path, { name })).token)
      form.reset()
    })
  }
  return (
    <ModalSheet name="Ingest tokens" troubles={tokens.troubles()} closed={props.closed}>
      <form class="access-form" onSubmit={make}>
        <p>A program with a token adds readings at this site and can do nothing else.</p>
        <label>
          What you call the program
          <input name="name" maxLength={60} autocomplete="off" required />
        </label>
        <button type="submit">Make a token</button>
        <Show when={made()}>
          {(token) => (
            <p role="status">
              The program sends it as "Authorization: Bearer …". It is not shown again:{' '}
              <code class="invitation-link">{token()}</code>
            </p>
          )}
        </Show>
      </form>
      <Show
        when={listed().length > 0}
        fallback={
          <p>{tokens.known() === null ? 'Asking the server …' : 'None was made for this site yet.'}</p>
        }
      >
        <ul class="people-list">
          <For each={listed()}>
            {(token) => (
              <li class="person">
                <h3>{token.name}</h3>
                <p>{tokenSentence(token)}</p>
                <Show when={token.revokedAtEpochMs === null}>
                  <button
                    type="button"
                    onClick={() =>
                      void tokens.change(() =>
                        changeServer('DELETE', `${path}/${encodeURIComponent(token.id)}`),
                      )
                    }
                  >
                    Revoke {token.name}
                  </button>
                </Show>
              </li>
            )}
          </For>
        </ul>
      </Show>
    </ModalSheet>
  )
}

function tokenSentence(token: IngestTokenEntry): string {
  const at = (epochMs: number) => dayAndTime.format(epochMs)
  const used = token.lastUsedAtEpochMs === null ? 'not used yet' : `last used ${at(token.lastUsedAtEpochMs)}`
  const end = token.revokedAtEpochMs === null ? '' : `, revoked ${at(token.revokedAtEpochMs)}`
  return `Made by ${token.makerName} ${at(token.createdAtEpochMs)}, ${used}${end}.`
}
