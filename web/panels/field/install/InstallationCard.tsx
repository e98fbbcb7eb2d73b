import { createMemo, createSignal, For, Show } from 'solid-js'
import type { InstallationBody } from '#domain/field/field-bodies.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import { type Delivered, installationStanding } from '#domain/field/installation-standing.ts'
import { sentenceOf } from '../../../state/ask-server.ts'
import { type KnownEntry, writeDown } from '../../../state/field-work.ts'
import { rememberedName, rememberName } from '../../../state/own-name.ts'
import { siteDocument } from '../../../state/site-document.ts'
import { formatInstant } from '../../../ui/format-instant.ts'
import { TypedText } from '../TypedText.tsx'
import { knownSite } from './known-site.ts'

/** A recorded installation: what it still lacks, and a place for the second person's check. */
export function InstallationCard(props: {
  written: KnownEntry
  disputed: boolean
  entries: readonly Delivered<FieldEntry>[]
  goOn: (body: InstallationBody) => void
}) {
  const [name, setName] = createSignal(rememberedName())
  const [found, setFound] = createSignal('')
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const entry = () => props.written.entry as FieldEntry & { readonly body: InstallationBody }
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const taken = () => props.written.stored?.effect?.outcome === 'taken'
  const standing = createMemo(() =>
    installationStanding(
      { ...entry(), sender: props.written.stored?.sender ?? null },
      props.entries,
      knownSite(),
    ),
  )
  const check = async (agreed: boolean) => {
    const same = name().trim().toLowerCase() === entry().author.trim().toLowerCase()
    const against =
      name().trim() === ''
        ? 'Write your name: a check is signed.'
        : agreed && same
          ? `${entry().author} recorded it and cannot check it. A second person has to.`
          : !agreed && found().trim() === ''
            ? 'Say what does not agree.'
            : null
    setTrouble(against)
    if (against !== null) return
    rememberName(name())
    try {
      await writeDown({
        site: entry().site,
        body: {
          kind: 'second-check',
          instrument: entry().body.instrument,
          entry: entry().id,
          agreed,
          found: found().trim(),
        },
        author: name(),
      })
    } catch (cause) {
      setTrouble(sentenceOf(cause))
    }
  }
  return (
    <article class="field-card" data-status={taken() ? 'commissioned' : standing().status}>
      <h4>
        {entry().body.instrument}:{' '}
        {taken()
          ? 'commissioned'
          : standing().status === 'commissioned'
            ? 'checked'
            : 'recorded, not commissioned'}
      </h4>
      <p>
        Recorded by {entry().author}, {formatInstant(entry().writtenAtEpochMs, zone())}.
        {standing().checkedBy === null ? '' : ` Checked by ${standing().checkedBy}.`}{' '}
        {props.written.stored?.effect?.sentence ?? ''}
      </p>
      <Show when={props.disputed}>
        <p class="trouble">
          Recorded twice, by people who did not know of each other: the outbox shows both side by side.
        </p>
      </Show>
      <Show when={!taken()}>
        <ul>
          <For each={standing().missing}>{(fault) => <li>{fault.message}</li>}</For>
        </ul>
        <details>
          <summary>Second person’s check</summary>
          <TypedText label="What was looked at, or does not agree" value={found()} onChange={setFound} />
          <TypedText label="Name of who checks" value={name()} onChange={setName} />
          <div class="field-row">
            <button type="button" onClick={() => void check(true)}>
              I checked it and agree
            </button>
            <button type="button" onClick={() => void check(false)}>
              It does not agree
            </button>
            <button type="button" onClick={() => props.goOn(entry().body)}>
              Record it again from here
            </button>
          </div>
          <Show when={trouble()}>
            <p class="trouble" role="alert">
              {trouble()}
            </p>
          </Show>
        </details>
      </Show>
    </article>
  )
}
