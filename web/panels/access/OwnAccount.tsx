import { createSignal, Show } from 'solid-js'
import { sentenceOf } from '../../state/ask-server.ts'
import { waitingOnDevice } from '../../state/field-work.ts'
import { isAdministrator, signedInName, signOut } from '../../state/own-account.ts'
import { forgetPush, renewPush } from '../../state/push-device.ts'
import { WhereAlertsGoSheet } from '../alerts/WhereAlertsGoSheet.tsx'
import { PeopleSheet } from './PeopleSheet.tsx'
import { waitingSentence } from './waiting-sentence.ts'

/** Who is signed in, and the way out. */
export function OwnAccount() {
  const [waiting, setWaiting] = createSignal(0)
  const [peopleShown, setPeopleShown] = createSignal(false)
  const [waysShown, setWaysShown] = createSignal(false)
  // Where it cannot be renewed now, the next start of the page tries again.
  void renewPush().catch(() => undefined)
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
      <button type="button" onClick={() => setWaysShown(true)}>
        Where alerts go
      </button>
      <Show when={waysShown()}>
        <WhereAlertsGoSheet closed={() => setWaysShown(false)} />
      </Show>
      <Show when={isAdministrator()}>
        <button type="button" onClick={() => setPeopleShown(true)}>
          People and roles
        </button>
      </Show>
      <Show when={peopleShown()}>
        <PeopleSheet closed={() => setPeopleShown(false)} />
      </Show>
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
