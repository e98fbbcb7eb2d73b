import { createSignal, Show } from 'solid-js'
import { megabytes } from '../../offline/keep-site.ts'
import { largestFileBytes } from '../../offline/smaller-photo.ts'
import { selectedPoint } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { createSigning } from './create-signing.ts'
import { SignedBy } from './SignedBy.tsx'
import { TypedChoice } from './TypedText.tsx'

/** A logger's memory taken by cable: the file waits here and is taken in when there is a network; gaps fill, nothing doubles. */
export function MemoryPage() {
  const loggers = () =>
    (siteDocument()?.loggers ?? []).filter(({ kind }) => kind === 'logger').map(({ id }) => id)
  const [logger, setLogger] = createSignal(loggers().find((id) => id === selectedPoint()?.id) ?? '')
  const [file, setFile] = createSignal<File | null>(null)
  const signing = createSigning()
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
            : signing.author().trim() === ''
              ? 'Write your name: what is brought is signed.'
              : null
    if (signing.hinder(against) || taken === null || site === undefined) return
    const kept = await signing.keep(
      {
        site,
        body: {
          kind: 'memory-file',
          logger: logger(),
          fileName: taken.name,
          takenAtEpochMs: siteNowEpochMs(),
        },
        files: [taken],
      },
      `${taken.name} is kept on this device until the server has it.`,
      'The file is kept on this device',
    )
    if (kept) setFile(null)
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
      <SignedBy signing={signing} keep="Keep this file" />
    </form>
  )
}
