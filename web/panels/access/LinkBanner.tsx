import { Show } from 'solid-js'
import { reportTrouble } from '../../state/notices.ts'
import { me, signOut } from '../../state/own-account.ts'
import { dayAndTime } from '../../ui/day-and-time.ts'

/** Says by whose link one reads and how long, while nobody is signed in. */
export function LinkBanner() {
  const link = () => (me()?.person === null ? (me()?.link ?? null) : null)
  const leave = () =>
    signOut().then(
      () => location.reload(),
      (cause) => reportTrouble({ cause }),
    )
  return (
    <Show when={link()}>
      {(read) => (
        <p class="link-banner" role="status">
          Read by link of {read().makerName} until {dayAndTime.format(read().expiresAtEpochMs)} (this device’s
          time). Values are provisional.{' '}
          <button type="button" onClick={() => void leave()}>
            Read no longer
          </button>
        </p>
      )}
    </Show>
  )
}
