import { createSignal, For, Show } from 'solid-js'
import type { IngestTokenEntry, NewIngestToken } from '#contract/access-keys.ts'
import { askServer, changeServer, sendServer } from '../../state/ask-server.ts'
import { sitePath } from '../../state/open-site.ts'
import { siteDocument } from '../../state/site-document.ts'
import { sentencesOf } from './sentences-of.ts'
import './access.css'

/** Tokens with which programs add readings at the open site, for its administrators. */
export function IngestTokensSheet(props: { closed: () => void }) {
  const path = sitePath(siteDocument()?.facts.id ?? '', '/ingest-tokens')
  const [tokens, setTokens] = createSignal<readonly IngestTokenEntry[]>([])
  const [made, setMade] = createSignal<string | null>(null)
  const [troubles, setTroubles] = createSignal<readonly string[]>([])
  const change = async (task: () => Promise<unknown>) => {
    setTroubles([])
    await task().catch((cause) => setTroubles(sentencesOf(cause)))
    await askServer<{ tokens: readonly IngestTokenEntry[] }>(path).then(
      (answer) => setTokens(answer.tokens),
      (cause) => setTroubles(sentencesOf(cause)),
    )
  }
  void change(async () => undefined)
  const make = (event: SubmitEvent) => {
    event.preventDefault()
    const form = event.currentTarget as HTMLFormElement
    const name = String(new FormData(form).get('name'))
    void change(async () => {
      setMade(null)
      setMade((await sendServer<NewIngestToken>(path, { name })).token)
      form.reset()
    })
  }
  return (
    <dialog
      class="key-sheet people-sheet"
      aria-label="Ingest tokens"
      ref={(dialog) => queueMicrotask(() => dialog.isConnected && dialog.showModal())}
      onClose={() => props.closed()}
    >
      <form method="dialog">
        <button type="submit">Close</button>
      </form>
      <h2>Ingest tokens</h2>
      <For each={troubles()}>
        {(trouble) => (
          <p class="trouble" role="alert">
            {trouble}
          </p>
        )}
      </For>
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
      <Show when={tokens().length > 0} fallback={<p>None was made for this site yet.</p>}>
        <ul class="people-list">
          <For each={tokens()}>
            {(token) => (
              <li class="person">
                <h3>{token.name}</h3>
                <p>{tokenSentence(token)}</p>
                <Show when={token.revokedAtEpochMs === null}>
                  <button
                    type="button"
                    onClick={() =>
                      void change(() => changeServer('DELETE', `${path}/${encodeURIComponent(token.id)}`))
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
    </dialog>
  )
}

function tokenSentence(token: IngestTokenEntry): string {
  const at = (epochMs: number) => dayAndTime.format(epochMs)
  const used = token.lastUsedAtEpochMs === null ? 'not used yet' : `last used ${at(token.lastUsedAtEpochMs)}`
  const end = token.revokedAtEpochMs === null ? '' : `, revoked ${at(token.revokedAtEpochMs)}`
  return `Made by ${token.makerName} ${at(token.createdAtEpochMs)}, ${used}${end}.`
}

const dayAndTime = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short' })
