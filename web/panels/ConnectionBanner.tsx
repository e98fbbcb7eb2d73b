import { Show } from 'solid-js'
import { unansweredSinceEpochMs } from '../state/connection.ts'
import { eventsLostSinceEpochMs } from '../state/events-line.ts'
import { keptParts } from '../state/kept-parts.ts'
import { isSignedOut } from '../state/own-account.ts'
import { dayAndTime } from '../ui/day-and-time.ts'
import { keptPartsSentence } from './kept-parts-sentence.ts'

/** Stands over everything while the server is silent, or what is shown is older than the states beside it. */
export function ConnectionBanner() {
  return (
    <>
      <Show when={unansweredSinceEpochMs()}>
        {(since) => (
          <p class="connection-banner" role="alert">
            {isSignedOut() ? 'Nobody is signed in here, so no' : 'No'} answer from the server since{' '}
            {saidTime(since(), Date.now())} (this device’s clock). Nothing newer is shown: neither readings,
            nor levels, nor silence.
          </p>
        )}
      </Show>
      <Show when={unansweredSinceEpochMs() === null && eventsLostSinceEpochMs()}>
        {(since) => (
          <p class="events-lost" role="status">
            The server tells this page of changes no more since {saidTime(since(), Date.now())} (this device’s
            clock). The page asks every minute instead.
          </p>
        )}
      </Show>
      <Show when={keptParts().length > 0}>
        <p class="connection-banner" role="alert">
          {keptPartsSentence(keptParts(), unansweredSinceEpochMs() === null)}
        </p>
      </Show>
    </>
  )
}

/** With its date, where the hour alone could be taken for one of today. */
const saidTime = (sinceEpochMs: number, nowEpochMs: number) =>
  (nowEpochMs - sinceEpochMs < 12 * 3_600_000 ? timeOfDay : dayAndTime).format(sinceEpochMs)

const timeOfDay = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', second: '2-digit' })
