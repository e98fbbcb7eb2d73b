import { createMemo, For, Show } from 'solid-js'
import { entriesAbout } from '../../derived/entries-about.ts'
import { fieldGuide } from '../../state/field-guide.ts'
import { type KnownEntry, knownEntries } from '../../state/field-work.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { selectedInstrument } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { AttachedFile } from './AttachedFile.tsx'
import { entrySentence } from './entry-sentence.ts'
import { standingOfEntry } from './entry-standing.ts'
import './entries-about.css'

/** What was written along the works about the selected instrument, newest first, with its photos. */
export function EntriesAbout() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const about = createMemo(() => {
    const instrument = selectedInstrument()
    return instrument ? entriesAbout(instrument, knownEntries()).toReversed() : []
  })
  const told = createMemo(() => about().filter(({ entry }) => entry.body.kind !== 'reading'))
  const readings = () => about().length - told().length
  return (
    <section class="entries-about" aria-label="Written along the works">
      <h3>Written along the works</h3>
      <Show when={told().length === 0}>
        <p>
          {hindranceTo('read-all') ??
            'This device knows of no note, damage report or installation here. What waits on another device is not known yet.'}
        </p>
      </Show>
      <ul>
        <For each={told()}>{(one) => <Entry one={one} zone={zone()} />}</For>
      </ul>
      <Show when={readings() > 0}>
        <p>
          {readings() === 1 ? '1 reading' : `${readings()} readings`} by hand: among the values under Readings
          over time once the server has them.
        </p>
      </Show>
    </section>
  )
}

function Entry(props: { one: KnownEntry; zone: string }) {
  const entry = () => props.one.entry
  const atEpochMs = () => {
    const { body, writtenAtEpochMs } = entry()
    return 'atEpochMs' in body ? body.atEpochMs : writtenAtEpochMs
  }
  const place = () => {
    const { position } = entry()
    return position === null
      ? ''
      : ` · at E ${position.eastingMetres.toFixed(0)} N ${position.northingMetres.toFixed(0)}, ± ${Math.ceil(position.accuracyMetres)} m`
  }
  return (
    <li data-kind={entry().body.kind}>
      <p>{entrySentence({ ...entry(), attachments: [] }, fieldGuide())}</p>
      <p class="entry-facts">
        {formatInstant(atEpochMs(), props.zone)} · {entry().author}
        {place()} · {standingOfEntry(props.one)}
      </p>
      <Show when={entry().attachments.length > 0}>
        <div class="entry-files">
          <For each={entry().attachments}>
            {(attachment) => <AttachedFile attachment={attachment} site={entry().site} />}
          </For>
        </div>
      </Show>
    </li>
  )
}
