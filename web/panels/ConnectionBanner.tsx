import { Show } from 'solid-js'
import { unansweredSinceEpochMs } from '../state/connection.ts'

/** Stands over everything while the server is silent: a page that cannot ask must not look current. */
export function ConnectionBanner() {
  return (
    <Show when={unansweredSinceEpochMs()}>
      {(since) => (
        <p class="connection-banner" role="alert">
          No answer from the server since {timeOfDay.format(since())} (this device’s clock). Nothing newer is
          shown: neither readings, nor levels, nor silence.
        </p>
      )}
    </Show>
  )
}

const timeOfDay = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', second: '2-digit' })
