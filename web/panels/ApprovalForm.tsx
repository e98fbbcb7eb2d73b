import { createSignal, createUniqueId, For, Show } from 'solid-js'
import { sendServer } from '../state/ask-server.ts'
import { showSaved, sitePath } from '../state/open-site.ts'
import { rememberedName, rememberName } from '../state/own-name.ts'
import { clockEpochMs, spanEpochMs } from '../state/site-clock.ts'
import { siteDocument, stateDocument } from '../state/site-document.ts'
import { announce } from '../ui/announce.ts'
import { fromLocalField, toLocalField } from '../ui/format-instant.ts'
import { WhenAllowed } from './access/WhenAllowed.tsx'
import { createFaults } from './create-faults.tsx'
import { doubtsWithin } from './doubts-within.ts'

type ApprovalField = 'from' | 'until' | 'reach' | 'statement' | 'author'
const fieldOfColumn: Readonly<Record<string, ApprovalField>> = {
  fromEpochMs: 'from',
  untilEpochMs: 'until',
  instruments: 'reach',
  statement: 'statement',
  author: 'author',
}

/** Readings to approve: of one instrument, of all of its kind, or of the site. */
export function ApprovalForm(props: { instrument: string; from: number; leave: () => void }) {
  const form = createUniqueId()
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const faults = createFaults<ApprovalField>(form, (column) => fieldOfColumn[String(column ?? '')] ?? null)
  const minuteMs = 60_000
  const now = Math.floor((clockEpochMs() ?? spanEpochMs().untilEpochMs) / minuteMs) * minuteMs
  // What arrives while somebody writes was not looked at.
  const seenAtEpochMs = stateDocument()?.asOfEpochMs ?? null
  const [from, setFrom] = createSignal(toLocalField(Math.min(props.from, now), zone()))
  const [until, setUntil] = createSignal(toLocalField(now, zone()))
  const [reach, setReach] = createSignal<'one' | 'kind' | 'site'>('one')
  const [statement, setStatement] = createSignal('')
  const [author, setAuthor] = createSignal(rememberedName())
  const [saving, setSaving] = createSignal(false)
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
  const save = async (event: SubmitEvent) => {
    event.preventDefault()
    faults.clear()
    rememberName(author())
    setSaving(true)
    const site = siteDocument()?.facts.id ?? ''
    try {
      await sendServer(sitePath(site, '/approvals'), {
        instruments: instruments(),
        fromEpochMs: fromLocalField(from(), zone()),
        untilEpochMs: fromLocalField(until(), zone()),
        statement: statement(),
        author: author(),
        ...(seenAtEpochMs === null ? {} : { seenAtEpochMs }),
      })
      announce(
        `Readings of ${instruments().length === 1 ? props.instrument : `${instruments().length} instruments`} are approved`,
      )
      props.leave()
      showSaved(site)
    } catch (cause) {
      faults.take(cause)
    } finally {
      setSaving(false)
    }
  }
  return (
    <form class="verdict-form" onSubmit={(event) => void save(event)} aria-label="Approve readings">
      <div class="layout-field">
        <label for={`${form}-reach`}>Of</label>
        <select
          id={`${form}-reach`}
          {...faults.troubled('reach')}
          value={reach()}
          onInput={(event) => setReach(event.currentTarget.value as 'one' | 'kind' | 'site')}
        >
          <option value="one">{props.instrument}</option>
          <option value="kind">all instruments of its kind</option>
          <option value="site">all instruments of the site</option>
        </select>
        <small>{instruments().length === 1 ? 'one instrument' : `${instruments().length} instruments`}</small>
        {faults.textAt('reach')}
      </div>
      <div class="layout-field">
        <label for={`${form}-from`}>From</label>
        <input
          id={`${form}-from`}
          {...faults.troubled('from')}
          type="datetime-local"
          required
          value={from()}
          onInput={(event) => setFrom(event.currentTarget.value)}
        />
        <small>site time, {zone()}</small>
        {faults.textAt('from')}
      </div>
      <div class="layout-field">
        <label for={`${form}-until`}>Until before</label>
        <input
          id={`${form}-until`}
          {...faults.troubled('until')}
          type="datetime-local"
          required
          value={until()}
          onInput={(event) => setUntil(event.currentTarget.value)}
        />
        {faults.textAt('until')}
      </div>
      <div class="layout-field wide">
        <label for={`${form}-statement`}>What was looked at</label>
        <textarea
          id={`${form}-statement`}
          {...faults.troubled('statement')}
          required
          maxlength="1000"
          value={statement()}
          onInput={(event) => setStatement(event.currentTarget.value)}
        />
        <small>which plots, checks, field notes or report it rests on; kept for good</small>
        {faults.textAt('statement')}
      </div>
      <div class="layout-field">
        <label for={`${form}-author`}>Your name</label>
        <input
          id={`${form}-author`}
          {...faults.troubled('author')}
          type="text"
          required
          maxlength="200"
          value={author()}
          onInput={(event) => setAuthor(event.currentTarget.value)}
        />
        {faults.textAt('author')}
      </div>
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
      {faults.summary()}
      <div class="buttons">
        <WhenAllowed to="approve-readings">
          <button type="submit" class="primary" disabled={saving()}>
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
