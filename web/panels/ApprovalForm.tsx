import { createSignal, For, Show } from 'solid-js'
import { sendServer } from '../state/ask-server.ts'
import { showSaved, sitePath } from '../state/open-site.ts'
import { clockEpochMs, spanEpochMs } from '../state/site-clock.ts'
import { siteDocument, stateDocument } from '../state/site-document.ts'
import { announce } from '../ui/announce.ts'
import { fromLocalField, toLocalField } from '../ui/format-instant.ts'
import { WhenAllowed } from './access/WhenAllowed.tsx'
import { doubtsWithin } from './doubts-within.ts'
import { AuthorField } from './signed/AuthorField.tsx'
import { createSignedForm } from './signed/create-signed-form.ts'
import { FormField } from './signed/FormField.tsx'
import { LineField } from './signed/LineField.tsx'
import { WordsField } from './signed/WordsField.tsx'

type ApprovalField = 'from' | 'until' | 'reach' | 'statement'
const fieldOfColumn: Readonly<Record<string, ApprovalField>> = {
  fromEpochMs: 'from',
  untilEpochMs: 'until',
  instruments: 'reach',
  statement: 'statement',
}

/** Readings to approve: of one instrument, of all of its kind, or of the site. */
export function ApprovalForm(props: { instrument: string; from: number; leave: () => void }) {
  const form = createSignedForm((column) => fieldOfColumn[column])
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const minuteMs = 60_000
  const now = Math.floor((clockEpochMs() ?? spanEpochMs().untilEpochMs) / minuteMs) * minuteMs
  // What arrives while somebody writes was not looked at.
  const seenAtEpochMs = stateDocument()?.asOfEpochMs ?? null
  const [from, setFrom] = createSignal(toLocalField(Math.min(props.from, now), zone()))
  const [until, setUntil] = createSignal(toLocalField(now, zone()))
  const [reach, setReach] = createSignal<'one' | 'kind' | 'site'>('one')
  const [statement, setStatement] = createSignal('')
  const instruments = (): readonly string[] => {
    const all = (siteDocument()?.instruments ?? []).filter(
      ({ retiredAtEpochMs }) => retiredAtEpochMs === null,
    )
    const kind = all.find(({ id }) => id === props.instrument)?.kind
    if (reach() === 'one') return [props.instrument]
    return all.filter((one) => reach() === 'site' || one.kind === kind).map(({ id }) => id)
  }
  const doubts = () => {
    const document = siteDocument()
    const [since, before] = [fromLocalField(from(), zone()), fromLocalField(until(), zone())]
    return document && since !== null && before !== null
      ? doubtsWithin(document, instruments(), since, before)
      : []
  }
  const save = async (author: string) => {
    const site = siteDocument()?.facts.id ?? ''
    const approved = instruments()
    await sendServer(sitePath(site, '/approvals'), {
      instruments: approved,
      fromEpochMs: fromLocalField(from(), zone()),
      untilEpochMs: fromLocalField(until(), zone()),
      statement: statement(),
      author,
      ...(seenAtEpochMs === null ? {} : { seenAtEpochMs }),
    })
    announce(
      `Readings of ${approved.length === 1 ? props.instrument : `${approved.length} instruments`} are approved`,
    )
    props.leave()
    showSaved(site)
  }
  return (
    <form class="verdict-form" onSubmit={form.submits(save)} aria-label="Approve readings">
      <FormField
        form={form}
        field="reach"
        label="Of"
        hint={instruments().length === 1 ? 'one instrument' : `${instruments().length} instruments`}
      >
        <select
          id={form.idOf('reach')}
          {...form.faults.troubled('reach')}
          value={reach()}
          onInput={(event) => setReach(event.currentTarget.value as 'one' | 'kind' | 'site')}
        >
          <option value="one">{props.instrument}</option>
          <option value="kind">all instruments of its kind</option>
          <option value="site">all instruments of the site</option>
        </select>
      </FormField>
      <LineField
        form={form}
        field="from"
        label="From"
        type="datetime-local"
        hint={`site time, ${zone()}`}
        value={from()}
        write={setFrom}
      />
      <LineField
        form={form}
        field="until"
        label="Until before"
        type="datetime-local"
        value={until()}
        write={setUntil}
      />
      <WordsField
        form={form}
        field="statement"
        label="What was looked at"
        hint="which plots, checks, field notes or report it rests on; kept for good"
        wide
        value={statement()}
        write={setStatement}
      />
      <AuthorField form={form} />
      <Show when={doubts().length > 0}>
        <div class="wide">
          <p class="trouble">
            Somebody doubts readings of this stretch. Approving it leaves these verdicts as they are and says
            nothing against them:
          </p>
          <ul>
            <For each={doubts()}>{(doubt) => <li>{doubt}</li>}</For>
          </ul>
        </div>
      </Show>
      <p>
        Readings that arrive after this moment stay provisional, and all of them become so again when a record
        behind their values changes. Approval says that a person has looked; it certifies nothing.
      </p>
      {form.faults.summary()}
      <div class="buttons">
        <WhenAllowed to="approve-readings">
          <button type="submit" class="primary" disabled={form.sending()}>
            Approve them
          </button>
        </WhenAllowed>
        <button type="button" onClick={() => props.leave()}>
          Leave it
        </button>
      </div>
    </form>
  )
}
