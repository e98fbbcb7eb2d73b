import { createSignal, For, Show } from 'solid-js'
import { type ReceiverRecords as Answer, receiverRecordsSchema } from '#contract/receiver-records.ts'
import { type Issue, issueLine } from '#domain/outcome.ts'
import { ServerRefused, sentenceOf, tellServer } from '../state/ask-server.ts'
import { sitePath } from '../state/open-site.ts'
import { signedInName } from '../state/own-account.ts'
import { rememberedName, rememberName } from '../state/own-name.ts'
import { announce } from '../ui/announce.ts'
import './receiver-records.css'

const mostFaults = 20

/** Brings what a receiver recorded of coverage tests made without a network, as a file. */
export function ReceiverRecords(props: { site: string }) {
  const [typed, setTyped] = createSignal(rememberedName())
  const author = () => signedInName() ?? typed()
  const [said, setSaid] = createSignal<string | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const [faults, setFaults] = createSignal<readonly Issue[]>([])
  const [sending, setSending] = createSignal(false)

  const bring = async (file: File) => {
    setSaid(null)
    setFaults([])
    setTrouble(author().trim() === '' ? 'Write your name first: the record is signed with it.' : null)
    if (trouble() !== null) return
    rememberName(author())
    setSending(true)
    try {
      const query = new URLSearchParams({ name: file.name, author: author().trim() })
      const path = sitePath(props.site, `/receiver-records?${query}`)
      const sentence = sentenceOfAnswer(
        file.name,
        receiverRecordsSchema.parse(await tellServer<Answer>(path, file)),
      )
      setSaid(sentence)
      announce(sentence)
    } catch (cause) {
      setTrouble(sentenceOf(cause))
      setFaults(cause instanceof ServerRefused ? ((cause.problem.issues ?? []) as readonly Issue[]) : [])
    } finally {
      setSending(false)
    }
  }
  return (
    <details class="record-more receiver-records">
      <summary>Receiver's record of coverage tests</summary>
      <p>
        A CSV with the columns test, spreading factor, received and signal, a row a test and spreading factor;
        signal in dBm may be left out. Each test is matched with what was written along the works, whichever
        came first. The file is kept byte for byte.
      </p>
      <label>
        Your name
        <input
          value={author()}
          autocomplete="name"
          maxLength={200}
          readonly={signedInName() !== null}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
      </label>
      <label>
        File of the record
        <input
          type="file"
          accept=".csv,text/csv"
          disabled={sending()}
          onChange={(event) => {
            const [file] = event.currentTarget.files ?? []
            if (file) void bring(file)
            // The same file can be chosen again once it is mended.
            event.currentTarget.value = ''
          }}
        />
      </label>
      <Show when={trouble()}>
        <p class="trouble" role="alert">
          {trouble()}
        </p>
      </Show>
      <Show when={faults().length > 0}>
        <ul>
          <For each={faults().slice(0, mostFaults)}>{(fault) => <li>{issueLine(fault)}</li>}</For>
          <Show when={faults().length > mostFaults}>
            <li>{faults().length - mostFaults} more like these.</li>
          </Show>
        </ul>
      </Show>
      <Show when={said()}>
        <p role="status">{said()}</p>
      </Show>
    </details>
  )
}

function sentenceOfAnswer(fileName: string, { records }: Answer): string {
  const fresh = records.filter(({ outcome }) => outcome === 'accepted').length
  const known = records.length - fresh
  return `${fileName}: records of ${fresh} ${fresh === 1 ? 'test' : 'tests'} taken${known > 0 ? `, ${known} known already` : ''}. The field work says what they were matched with.`
}
