import { createMemo, Show } from 'solid-js'
import { ownClockSentence } from '#domain/field/device-clock.ts'
import { standingEntries } from '#domain/field/standing-entries.ts'
import { refusedWork } from '../../derived/not-taken.ts'
import {
  clockAheadMs,
  knownEntries,
  lastSynchronisedEpochMs,
  waitingCount,
  waitingWork,
} from '../../state/field-work.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { siteDocument } from '../../state/site-document.ts'
import { synchronisingTrouble } from '../../state/synchronise.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { refusedSentence, waitingSentence } from './waiting-sentence.ts'

/** Over every page of field work: what exists on this device alone, and when it last spoke with the server. */
export function WaitingLine() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const disputes = createMemo(
    () => standingEntries(knownEntries().map(({ entry }) => entry)).filter(({ disputed }) => disputed).length,
  )
  return (
    <div class="field-waiting" classList={{ 'some-wait': waitingCount() > 0 }}>
      <p>
        <span>{waitingSentence(waitingWork())}</span>{' '}
        <Show when={disputes() > 0}>
          <strong>
            {disputes() === 1 ? '1 thing is' : `${disputes()} things are`} written twice: the Outbox shows
            both.
          </strong>{' '}
        </Show>
        <Show when={lastSynchronisedEpochMs()} fallback="This device has never synchronised with the server.">
          {(at) => (
            <>
              Last synchronised {formatInstant(at(), zone())}
              {synchronisingTrouble() === null ? '.' : '; what was tried since did not get through.'}
            </>
          )}
        </Show>
      </p>
      <Show when={hindranceTo('add')}>
        {(sentence) => (
          <p class="trouble">{sentence()} Until then what is written here stays on this device.</p>
        )}
      </Show>
      <Show when={refusedSentence(refusedWork(knownEntries()))}>
        {(sentence) => <p class="trouble">{sentence()}</p>}
      </Show>
      <Show when={ownClockSentence(clockAheadMs())}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
    </div>
  )
}
