import { createSignal, For, Show } from 'solid-js'
import { draftFiles, draftText, keepDraftFiles, keepDraftText } from '../../state/field-drafts.ts'
import { ownPosition } from '../../state/own-position.ts'
import { selectedInstrument } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { createSigning } from './create-signing.ts'
import { FilesField } from './FilesField.tsx'
import { OwnPlace } from './OwnPlace.tsx'
import { SignedBy } from './SignedBy.tsx'
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
  const signing = createSigning()
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
        : signing.author().trim() === ''
          ? 'Write your name: a note is signed.'
          : about() === '' && ownPosition() === null
            ? 'Say what it is about, or use your position: a note belongs to a place.'
            : null
    if (signing.hinder(against) || site === undefined) return
    const kept = await signing.keep(
      {
        site,
        body: {
          kind: kind(),
          about: about() === '' ? null : about(),
          atEpochMs: siteNowEpochMs(),
          text: text().trim(),
        },
        files: files(),
      },
      'Kept on this device.',
      'The note is kept on this device',
    )
    if (!kept) return
    setText('')
    setFiles([])
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
      <SignedBy signing={signing} keep="Keep this note" />
    </form>
  )
}
