import { createSignal, Show } from 'solid-js'
import { megabytes } from '../../offline/keep-site.ts'
import { largestFileBytes } from '../../offline/smaller-photo.ts'
import { writeDown } from '../../state/field-work.ts'
import { rememberedName, rememberName } from '../../state/own-name.ts'
import { ownPosition } from '../../state/own-position.ts'
import { selectedPoint } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { announce } from '../../ui/announce.ts'
import { roomSentence } from './ReadingPage.tsx'
import { TypedChoice, TypedText } from './TypedText.tsx'

/** A logger's memory taken by cable: the file waits here and is taken in when there is a network; gaps fill, nothing doubles. */
export function MemoryPage() {
  const loggers = () =>
    (siteDocument()?.loggers ?? []).filter(({ kind }) => kind === 'logger').map(({ id }) => id)
  const [logger, setLogger] = createSignal(loggers().find((id) => id === selectedPoint()?.id) ?? '')
  const [file, setFile] = createSignal<File | null>(null)
  const [author, setAuthor] = createSignal(rememberedName())
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const [said, setSaid] = createSignal<string | null>(null)
  const save = async (event: SubmitEvent) => {
    event.preventDefault()
    const site = siteDocument()?.facts.id
    const taken = file()
    const against =
      logger() === ''
        ? 'Choose the logger whose memory this is.'
        : taken === null
          ? 'Choose the file that the cable gave.'
          : taken.size > largestFileBytes
            ? `${taken.name} has ${megabytes(taken.size)}, more than waits on a device (${megabytes(largestFileBytes)}). Bring it in at a desk, under Imports; the logger keeps its memory.`
            : author().trim() === ''
              ? 'Write your name: what is brought is signed.'
              : null
    setTrouble(against)
    if (against !== null || taken === null || site === undefined) return
    rememberName(author())
    try {
      await writeDown({
        site,
        body: {
          kind: 'memory-file',
          logger: logger(),
          fileName: taken.name,
          takenAtEpochMs: siteNowEpochMs(),
        },
        author: author(),
        position: ownPosition(),
        files: [taken],
      })
      setSaid(`${taken.name} is kept on this device until the server has it.`)
      announce('The file is kept on this device')
      setFile(null)
    } catch (cause) {
      setTrouble(`Nothing was kept: ${roomSentence(cause)}`)
    }
  }
  return (
    <form class="field-page" aria-label="Logger memory" onSubmit={save}>
      <h2>Logger memory by cable</h2>
      <TypedChoice
        label="Logger"
        value={logger()}
        options={[
          { word: '', name: 'Choose the logger …' },
          ...loggers().map((word) => ({ word, name: word })),
        ]}
        onChange={setLogger}
      />
      <label>
        File of its memory
        <input type="file" onChange={(event) => setFile(event.currentTarget.files?.[0] ?? null)} />
      </label>
      <Show when={file()}>
        {(taken) => (
          <p>
            {taken().name}, {megabytes(taken().size)}. It is kept as it is and read by the server, by the
            layout that fits it; what the radio brought already is not doubled.
          </p>
        )}
      </Show>
      <TypedText label="Your name" value={author()} onChange={setAuthor} />
      <button type="submit">Keep this file</button>
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
