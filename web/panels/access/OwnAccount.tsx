import { createSignal, Match, Show, Switch } from 'solid-js'
import type { Action } from '#domain/access/permissions.ts'
import { sentenceOf } from '../../state/ask-server.ts'
import { waitingOnDevice } from '../../state/field-work.ts'
import { isAdministrator, signedInName, signOut } from '../../state/own-account.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { forgetPush, renewPush } from '../../state/push-device.ts'
import { siteDocument } from '../../state/site-document.ts'
import { WhereAlertsGoSheet } from '../alerts/WhereAlertsGoSheet.tsx'
import { IngestTokensSheet } from './IngestTokensSheet.tsx'
import { KeysSheet } from './KeysSheet.tsx'
import { PeopleSheet } from './PeopleSheet.tsx'
import { ShareSheet } from './ShareSheet.tsx'
import { waitingSentence } from './waiting-sentence.ts'

/** Who is signed in, and the way out. */
export function OwnAccount() {
  const [waiting, setWaiting] = createSignal(0)
  // Where it cannot be renewed now, the next start of the page tries again.
  void renewPush().catch(() => undefined)
  const [sheet, setSheet] = createSignal<'people' | 'keys' | 'share' | 'tokens' | 'ways' | null>(null)
  const closed = () => setSheet(null)
  const mayAtSite = (action: Action) => siteDocument() !== null && hindranceTo(action) === null
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const leave = async () => {
    try {
      // The server tells the device nothing once its session is ended, whatever the browser forgets.
      await forgetPush().catch(() => undefined)
      await signOut()
      location.reload()
    } catch (cause) {
      setTrouble(`You are still signed in. ${sentenceOf(cause)}`)
    }
  }
  const ask = async () => {
    const count = await waitingOnDevice().catch(() => 0)
    setWaiting(count)
    if (count === 0) await leave()
  }
  return (
    <div class="own-account">
      <span>Signed in as {signedInName()}</span>
      <button type="button" onClick={() => setSheet('ways')}>
        Where alerts go
      </button>
      <button type="button" onClick={() => setSheet('keys')}>
        Password, codes and passkeys
      </button>
      <Show when={mayAtSite('change-records')}>
        <button type="button" onClick={() => setSheet('share')}>
          Share this view
        </button>
      </Show>
      <Show when={mayAtSite('administer')}>
        <button type="button" onClick={() => setSheet('tokens')}>
          Ingest tokens
        </button>
      </Show>
      <Show when={isAdministrator()}>
        <button type="button" onClick={() => setSheet('people')}>
          People and roles
        </button>
      </Show>
      <Switch>
        <Match when={sheet() === 'ways'}>
          <WhereAlertsGoSheet closed={closed} />
        </Match>
        <Match when={sheet() === 'keys'}>
          <KeysSheet closed={closed} />
        </Match>
        <Match when={sheet() === 'share'}>
          <ShareSheet closed={closed} />
        </Match>
        <Match when={sheet() === 'tokens'}>
          <IngestTokensSheet closed={closed} />
        </Match>
        <Match when={sheet() === 'people'}>
          <PeopleSheet closed={closed} />
        </Match>
      </Switch>
      <Show
        when={waiting() > 0}
        fallback={
          <button type="button" onClick={ask}>
            Sign out
          </button>
        }
      >
        <p role="alert">{waitingSentence(waiting())}</p>
        <button type="button" onClick={leave}>
          Sign out all the same
        </button>
        <button type="button" onClick={() => setWaiting(0)}>
          Stay signed in
        </button>
      </Show>
      <Show when={trouble()}>
        <p class="trouble" role="alert">
          {trouble()}
        </p>
      </Show>
    </div>
  )
}
