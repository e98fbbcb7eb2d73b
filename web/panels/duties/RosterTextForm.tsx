import { createSignal, For, Show } from 'solid-js'
import { type RosterPreview, type RosterTable, type RosterText, rosterTables } from '#contract/roster-text.ts'
import { issueLine } from '#domain/outcome.ts'
import { askServer, changeServer, ServerRefused, sendServer, sentenceOf } from '../../state/ask-server.ts'
import { refreshDuties } from '../../state/duties.ts'
import { sitePath } from '../../state/open-site.ts'
import { rememberName } from '../../state/own-name.ts'
import { announce } from '../../ui/announce.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { WordsField } from '../signed/WordsField.tsx'
import { RosterEffect } from './RosterEffect.tsx'

const tableWords: Readonly<Record<RosterTable, string>> = {
  contacts: 'Contacts',
  'duty-shifts': 'Shifts',
  holidays: 'Holidays',
  escalations: 'Steps',
}

/** The tables of the roster as text, changed after a look at the holes that the change would leave. */
export function RosterTextForm(props: { site: string }) {
  // What is wrong with lines of the text is told above it, line by line.
  const form = createSignedForm<'text' | 'file' | 'reason'>(() => null)
  const [opened, setOpened] = createSignal<{ table: RosterTable; from: RosterText } | null>(null)
  const [text, setText] = createSignal('')
  const [looked, setLooked] = createSignal<{ text: string; preview: RosterPreview } | null>(null)
  const [holesKnown, setHolesKnown] = createSignal(false)
  const [reason, setReason] = createSignal('')
  const [busy, setBusy] = createSignal(false)
  const [faults, setFaults] = createSignal<readonly string[]>([])
  const path = (table: RosterTable, part = '') => sitePath(props.site, `/roster/${table}${part}`)
  /** Of the very text that stands in the field. */
  const preview = () => (looked()?.text === text() ? (looked()?.preview ?? null) : null)
  const leavesHoles = () => preview()?.duties.some(({ holesAfter }) => holesAfter.length > 0) ?? false

  const attempt = async (work: () => Promise<void>) => {
    setFaults([])
    setBusy(true)
    try {
      await work()
    } catch (cause) {
      const issues = cause instanceof ServerRefused ? (cause.problem.issues ?? []) : []
      setFaults(issues.length > 0 ? issues.map((issue) => issueLine(issue as never)) : [sentenceOf(cause)])
    } finally {
      setBusy(false)
    }
  }
  const open = (table: RosterTable) =>
    attempt(async () => {
      const from = await askServer<RosterText>(path(table))
      setOpened({ table, from })
      setText(from.text)
      setLooked(null)
      setHolesKnown(false)
    })
  const look = (table: RosterTable) =>
    attempt(async () => {
      const asked = text()
      const preview = await sendServer<RosterPreview>(path(table, '/preview'), { text: asked })
      setLooked({ text: asked, preview })
      setHolesKnown(false)
    })
  const save = (table: RosterTable, from: RosterText) =>
    attempt(async () => {
      rememberName(form.author())
      const signature = { reason: reason(), author: form.author(), holesKnown: holesKnown() }
      await changeServer('PUT', path(table), { text: text(), basedOn: from.hash, ...signature })
      announce(`${tableWords[table]} are saved`)
      setOpened(null)
      setReason('')
      void refreshDuties(props.site)
    })

  return (
    <section class="duty-section" aria-label="Change the roster">
      <h2>Change the roster</h2>
      <div class="buttons">
        <For each={rosterTables}>
          {(table) => (
            <button
              type="button"
              aria-pressed={opened()?.table === table}
              disabled={busy()}
              onClick={() => void open(table)}
            >
              {tableWords[table]} …
            </button>
          )}
        </For>
      </div>
      <Show when={faults().length > 0}>
        <ul class="trouble" role="alert">
          <For each={faults()}>{(fault) => <li>{fault}</li>}</For>
        </ul>
      </Show>
      <Show when={opened()}>
        {(current) => (
          <form
            class="verdict-form"
            aria-label={`Text of ${current().from.file}`}
            onSubmit={(event) => {
              event.preventDefault()
              void (preview() === null ? look(current().table) : save(current().table, current().from))
            }}
          >
            <div class="layout-field wide">
              <label for={form.idOf('text')}>{current().from.file}, comma-separated, headings first</label>
              <textarea
                id={form.idOf('text')}
                class="roster-text"
                rows="12"
                wrap="off"
                spellcheck={false}
                ref={(area) => queueMicrotask(() => area.focus())}
                value={text()}
                onInput={(event) => setText(event.currentTarget.value)}
              />
            </div>
            <div class="layout-field wide">
              <label for={form.idOf('file')}>or take it from a file</label>
              <input
                id={form.idOf('file')}
                type="file"
                accept=".csv,text/csv,text/plain"
                onChange={(event) => {
                  void event.currentTarget.files?.[0]?.text().then(setText)
                }}
              />
            </div>
            <Show when={preview()}>
              {(known) => (
                <>
                  <RosterEffect preview={known()} />
                  <Show when={leavesHoles()}>
                    <label class="duty-check">
                      <input
                        type="checkbox"
                        checked={holesKnown()}
                        onInput={(event) => setHolesKnown(event.currentTarget.checked)}
                      />
                      These holes are known: nobody would be told first in them
                    </label>
                  </Show>
                  <WordsField
                    form={form}
                    field="reason"
                    label="Why it is changed"
                    wide
                    value={reason()}
                    write={setReason}
                  />
                  <AuthorField form={form} />
                </>
              )}
            </Show>
            <div class="buttons">
              <WhenAllowed to="change-records" toTry={preview() === null}>
                <button type="submit" class="primary" disabled={busy() || (leavesHoles() && !holesKnown())}>
                  {preview() === null ? 'Look at its effect' : 'Save it'}
                </button>
              </WhenAllowed>
              <button type="button" onClick={() => setOpened(null)}>
                Leave it
              </button>
            </div>
          </form>
        )}
      </Show>
    </section>
  )
}
