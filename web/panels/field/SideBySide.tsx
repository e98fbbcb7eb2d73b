import { createMemo, createSignal, For, Show } from 'solid-js'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import { standingEntries } from '#domain/field/standing-entries.ts'
import { fieldGuide } from '../../state/field-guide.ts'
import { knownEntries, writeDown } from '../../state/field-work.ts'
import { rememberedName, rememberName } from '../../state/own-name.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { entrySentence } from './entry-sentence.ts'
import { keptTrouble } from './kept-trouble.ts'
import { TypedText } from './TypedText.tsx'

/** What two people wrote on one subject without knowing of each other, side by side, until a person says which holds. */
export function SideBySide() {
  const disputes = createMemo(() =>
    standingEntries(knownEntries().map(({ entry }) => entry)).filter(({ disputed }) => disputed),
  )
  return (
    <Show when={disputes().length > 0}>
      <h3>Written twice</h3>
      {/* By subject: what is typed outlives a synchronisation. */}
      <For each={disputes().map(({ subject }) => subject)}>
        {(subject) => (
          <Dispute
            subject={subject}
            entries={
              (disputes().find((one) => one.subject === subject)?.entries ?? []) as readonly FieldEntry[]
            }
          />
        )}
      </For>
    </Show>
  )
}

function Dispute(props: { subject: string; entries: readonly FieldEntry[] }) {
  const [reason, setReason] = createSignal('')
  const [name, setName] = createSignal(rememberedName())
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const choose = async (chosen: FieldEntry) => {
    const against =
      reason().trim() === ''
        ? 'Say why this one holds; both are kept.'
        : name().trim() === ''
          ? 'Write your name: a decision is signed.'
          : null
    setTrouble(against)
    if (against !== null) return
    rememberName(name())
    try {
      await writeDown({
        site: chosen.site,
        body: { kind: 'resolution', subject: props.subject, chosen: chosen.id, reason: reason().trim() },
        author: name(),
      })
    } catch (cause) {
      setTrouble(keptTrouble(cause))
    }
  }
  return (
    <article class="field-card">
      <div class="side-by-side">
        <For each={props.entries}>
          {(entry) => (
            <div>
              <h4>{entrySentence(entry, fieldGuide())}</h4>
              <p>
                {entry.author}, {formatInstant(entry.writtenAtEpochMs, zone())}
              </p>
              <dl>
                <For each={factsOf(entry.body)}>
                  {([fact, said]) => (
                    <>
                      <dt>{fact}</dt>
                      <dd>{said}</dd>
                    </>
                  )}
                </For>
              </dl>
              <button type="button" onClick={() => void choose(entry)}>
                This one of {entry.author} holds
              </button>
            </div>
          )}
        </For>
      </div>
      <TypedText label="Why it holds" value={reason()} onChange={setReason} />
      <TypedText label="Your name" value={name()} onChange={setName} />
      <Show when={trouble()}>
        <p class="trouble" role="alert">
          {trouble()}
        </p>
      </Show>
    </article>
  )
}

/** What an entry says, fact by fact, so that two can be read beside each other. */
function factsOf(body: FieldEntry['body']): readonly (readonly [string, string])[] {
  return Object.entries(body).flatMap(([name, value]) => {
    if (name === 'kind' || value === null || value === '') return []
    if (name === 'evidence') return factsOf(value as FieldEntry['body'])
    const said =
      typeof value === 'object'
        ? JSON.stringify(value)
        : name.endsWith('EpochMs')
          ? instantText(value)
          : String(value)
    return [[wordsOf(name), said] as const]
  })
}

const wordsOf = (name: string) =>
  name.replace(/EpochMs$/, '').replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`)

const instantText = (value: unknown) => formatInstant(Number(value), siteDocument()?.facts.timeZone ?? 'UTC')
