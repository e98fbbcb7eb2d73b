import { For, Show } from 'solid-js'
import { isNotTaken } from '../../derived/not-taken.ts'
import { sentenceOf } from '../../state/ask-server.ts'
import { fieldGuide } from '../../state/field-guide.ts'
import {
  type KnownEntry,
  knownEntries,
  refusedFiles,
  tryStuckAgain,
  waitingCount,
  waitingWork,
} from '../../state/field-work.ts'
import { siteDocument } from '../../state/site-document.ts'
import { sendingProgress, synchronise, synchronisingTrouble } from '../../state/synchronise.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { entrySentence } from './entry-sentence.ts'
import { standingOfEntry } from './entry-standing.ts'
import { SideBySide } from './SideBySide.tsx'
import { waitingSentence } from './waiting-sentence.ts'

/** What was written on this device and where each of it stands. */
export function OutboxPage() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const own = () => knownEntries().filter((one) => one.own !== null)
  const tryAgain = async () => {
    const site = siteDocument()?.facts.id ?? ''
    await tryStuckAgain(site)
    // Where it fails, it is told above.
    await synchronise(site).catch(() => undefined)
  }
  const refusalsOf = (one: KnownEntry) =>
    one.entry.attachments.flatMap(({ sha256, name }) => {
      const why = refusedFiles().get(sha256)
      return why === undefined ? [] : `${name} was not taken: ${why}`
    })
  return (
    <section class="field-page" aria-label="Outbox">
      <h2>Outbox</h2>
      <p role="status">
        {waitingSentence(waitingWork())}{' '}
        <Show when={waitingCount() > 0}>Until it is confirmed it exists on this device alone.</Show>
      </p>
      <Show
        when={sendingProgress()}
        fallback={
          <button
            type="button"
            onClick={() => void synchronise(siteDocument()?.facts.id ?? '').catch(sentenceOf)}
          >
            Synchronise now
          </button>
        }
      >
        {(progress) => (
          <label>
            Sending {progress().done} of {progress().total}
            <progress max={progress().total} value={progress().done} />
          </label>
        )}
      </Show>
      <Show when={synchronisingTrouble()}>
        {(sentence) => <p class="trouble">Not sent yet: {sentence()} What was written stays here.</p>}
      </Show>
      <Show when={waitingWork().stuck > 0}>
        <p>
          What the server would not take stays here. It says below why.{' '}
          <button type="button" onClick={() => void tryAgain()}>
            Send it once more
          </button>
        </p>
      </Show>
      <SideBySide />
      <ul class="field-entries">
        <For each={own().toReversed()}>
          {(one) => (
            <li data-delivery={one.own?.delivery}>
              <span>{entrySentence(one.entry, fieldGuide())}</span>
              <span classList={{ trouble: isNotTaken(one) }}>
                {formatInstant(one.entry.writtenAtEpochMs, zone())} · {one.entry.author} ·{' '}
                {standingOfEntry(one)}
              </span>
              <For each={refusalsOf(one)}>{(refusal) => <span class="trouble">{refusal}</span>}</For>
            </li>
          )}
        </For>
      </ul>
    </section>
  )
}
