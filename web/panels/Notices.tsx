import { For, Show } from 'solid-js'
import { type Notice, notices, putAwayNotice } from '../state/notices.ts'

/** What went wrong and can be tried again. */
export function Notices() {
  const retry = (notice: Notice) => {
    putAwayNotice(notice.number)
    notice.retry?.()
  }
  return (
    <div class="notices" role="alert">
      <For each={notices()}>
        {(notice) => (
          <div class="notice">
            <span>{notice.sentence}</span>
            <Show when={notice.retry}>
              <button type="button" onClick={() => retry(notice)}>
                {notice.retryName}
              </button>
            </Show>
            <button type="button" onClick={() => putAwayNotice(notice.number)}>
              Put away
            </button>
          </div>
        )}
      </For>
    </div>
  )
}
