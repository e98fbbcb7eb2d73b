import { createSignal, For, Show } from 'solid-js'
import { draftFiles, draftText, keepDraftFiles, keepDraftText } from '../../state/field-drafts.ts'
import { writeDown } from '../../state/field-work.ts'
import { rememberedName, rememberName } from '../../state/own-name.ts'
import { ownPosition } from '../../state/own-position.ts'
import { selectedInstrument } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { announce } from '../../ui/announce.ts'
import { FilesField } from './FilesField.tsx'
import { OwnPlace } from './OwnPlace.tsx'
import { roomSentence } from './ReadingPage.tsx'
import { SketchField } from './SketchField.tsx'

/** A note or a report of damage, tied to an instrument or to the place where one stands. */
export function NotePage() {
  const [kind, setKind] = createSignal<'note' | 'damage'>('note')
  // What was typed outlives another page and a closed one; photos outlive another page.
  const draft = `note ${siteDocument()?.facts.id ?? ''}`
  const [text, setTypedText] = createSignal(draftText(draft))
  const setText = (typed: string) => {
    setTypedText(typed)
    keepDraftText(draft, typed)
  }
  // A text that was begun stays about what it was begun for, whatever was selected since.
  const [about, setChosenAbout] = createSignal(
    text() === '' && draftFiles(draft).length === 0
      ? (selectedInstrument()?.id ?? '')
      : draftText(`${draft} about`),
  )
  const setAbout = (name: string) => {
    setChosenAbout(name)
    keepDraftText(`${draft} about`, name)
  }
  keepDraftText(`${draft} about`, about())
  const otherSelected = () => {
    const selected = selectedInstrument()?.id
    return selected !== undefined && selected !== about() ? selected : null
  }
  const files = () => draftFiles(draft)
  const setFiles = (chosen: readonly File[]) => keepDraftFiles(draft, chosen)
  const [author, setAuthor] = createSignal(rememberedName())
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const [said, setSaid] = createSignal<string | null>(null)
  const names = () => {
    const document = siteDocument()
    return document
      ? [
          ...new Set(
            [...document.instruments, ...document.loggers, ...document.gateways].map(({ id }) => id),
          ),
        ].sort()
      : []
  }
  const save = async (event: SubmitEvent) => {
    event.preventDefault()
    const site = siteDocument()?.facts.id
    const against =
      text().trim() === '' && files().length === 0
        ? 'Write what you saw, or add a photo.'
        : author().trim() === ''
          ? 'Write your name: a note is signed.'
          : about() === '' && ownPosition() === null
            ? 'Say what it is about, or use your position: a note belongs to a place.'
            : null
    setTrouble(against)
    if (against !== null || site === undefined) return
    rememberName(author())
    try {
      await writeDown({
        site,
        body: {
          kind: kind(),
          about: about() === '' ? null : about(),
          atEpochMs: siteNowEpochMs(),
          text: text().trim(),
        },
        author: author(),
        position: ownPosition(),
        files: files(),
      })
      setSaid('Kept on this device.')
      announce('The note is kept on this device')
      setText('')
      setFiles([])
    } catch (cause) {
      setTrouble(`Nothing was kept: ${roomSentence(cause)}`)
    }
  }
  return (
    <form class="field-page" aria-label="Note" onSubmit={save}>
      <h2>Note or damage</h2>
      <fieldset class="field-kinds">
        <legend>What it is</legend>
        <For each={['note', 'damage'] as const}>
          {(one) => (
            <label>
              <input type="radio" name="note-kind" checked={kind() === one} onChange={() => setKind(one)} />
              {one === 'note' ? 'A note' : 'Damage to an instrument, logger or cable'}
            </label>
          )}
        </For>
      </fieldset>
      <label>
        About
        <select value={about()} onChange={(event) => setAbout(event.currentTarget.value)}>
          <option value="">The place where I stand</option>
          <For each={names()}>{(id) => <option value={id}>{id}</option>}</For>
        </select>
      </label>
      <Show when={otherSelected()}>
        {(selected) => (
          <p>
            {selected()} is selected on the plan.{' '}
            <button type="button" onClick={() => setAbout(selected())}>
              Make this about {selected()}
            </button>
          </p>
        )}
      </Show>
      <label>
        What you saw
        <textarea
          rows={4}
          maxLength={4000}
          value={text()}
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </label>
      <SketchField onSketch={(sketch) => setFiles([...files(), sketch])} />
      <FilesField files={files()} onChange={setFiles} />
      <OwnPlace />
      <label>
        Your name
        <input
          value={author()}
          autocomplete="name"
          onInput={(event) => setAuthor(event.currentTarget.value)}
        />
      </label>
      <button type="submit">Keep this note</button>
      <Show when={trouble()}>
        <p class="trouble" role="alert">
          {trouble()}
        </p>
      </Show>
      <Show when={said()}>
        <p role="status">{said()}</p>
      </Show>
    </form>
  )
}
