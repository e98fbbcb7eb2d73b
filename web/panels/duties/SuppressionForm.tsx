import { createSignal, createUniqueId, For } from 'solid-js'
import type { SuppressionDraft } from '#domain/suppression/draft-suppression.ts'
import { sendServer } from '../../state/ask-server.ts'
import { refreshDuties } from '../../state/duties.ts'
import { sitePath } from '../../state/open-site.ts'
import { rememberedName, rememberName } from '../../state/own-name.ts'
import { selectedInstrument } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { announce } from '../../ui/announce.ts'
import { fromLocalField, toLocalField } from '../../ui/format-instant.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { createFaults } from '../create-faults.tsx'

type Field = 'covers' | 'name' | 'until' | 'reason' | 'author'

const fieldOfColumn: Readonly<Record<string, Field>> = {
  covers: 'covers',
  name: 'name',
  untilEpochMs: 'until',
  reason: 'reason',
  author: 'author',
}
const fieldOfIssue = (column: string | number | undefined): Field | null =>
  fieldOfColumn[String(column ?? '')] ?? null

const coversNames = {
  instrument: 'an instrument',
  series: 'a series',
  level: 'one trigger level',
  logger: 'a logger',
} as const satisfies Record<SuppressionDraft['covers'], string>

/** Holds sending back from now on, for a reason and until an instant. */
export function SuppressionForm(props: { zone: string; atEpochMs: number; leave: () => void }) {
  const form = createUniqueId()
  const faults = createFaults(form, fieldOfIssue)
  const idOf = (field: Field) => `${form}-${field}`
  const [covers, setCovers] = createSignal<SuppressionDraft['covers']>('instrument')
  const [name, setName] = createSignal(selectedInstrument()?.id ?? '')
  const [until, setUntil] = createSignal(toLocalField(props.atEpochMs + 86_400_000, props.zone))
  const [reason, setReason] = createSignal('')
  const [author, setAuthor] = createSignal(rememberedName())
  const [saving, setSaving] = createSignal(false)
  const names = (): readonly string[] => {
    const site = siteDocument()
    if (!site) return []
    const listed = {
      instrument: site.instruments,
      series: site.series,
      level: site.triggerLevels,
      logger: site.loggers,
    }
    return listed[covers()].map(({ id }) => id)
  }
  const save = async (event: SubmitEvent) => {
    event.preventDefault()
    faults.clear()
    rememberName(author())
    setSaving(true)
    const site = siteDocument()?.facts.id ?? ''
    try {
      await sendServer(sitePath(site, '/suppressions'), {
        covers: covers(),
        name: name(),
        untilEpochMs: fromLocalField(until(), props.zone),
        reason: reason(),
        author: author(),
      })
      announce(`Alerts of ${name()} are not sent until ${until().replace('T', ' ')}`)
      props.leave()
      void refreshDuties(site)
    } catch (cause) {
      faults.take(cause)
    } finally {
      setSaving(false)
    }
  }
  return (
    <form class="verdict-form" onSubmit={(event) => void save(event)} aria-label="Hold something back">
      <div class="layout-field">
        <label for={idOf('covers')}>Alerts of</label>
        <select
          id={idOf('covers')}
          {...faults.troubled('covers')}
          value={covers()}
          onInput={(event) => {
            setCovers(event.currentTarget.value as SuppressionDraft['covers'])
            setName('')
          }}
        >
          <For each={Object.entries(coversNames)}>
            {([value, words]) => <option value={value}>{words}</option>}
          </For>
        </select>
        {faults.textAt('covers')}
      </div>
      <div class="layout-field">
        <label for={idOf('name')}>Its name</label>
        <input
          id={idOf('name')}
          {...faults.troubled('name')}
          type="text"
          required
          maxlength="200"
          list={`${form}-names`}
          value={name()}
          ref={(input) => queueMicrotask(() => input.focus())}
          onInput={(event) => setName(event.currentTarget.value)}
        />
        <datalist id={`${form}-names`}>
          <For each={names()}>{(one) => <option value={one} />}</For>
        </datalist>
        {faults.textAt('name')}
      </div>
      <div class="layout-field">
        <label for={idOf('until')}>Until</label>
        <input
          id={idOf('until')}
          {...faults.troubled('until')}
          type="datetime-local"
          required
          value={until()}
          onInput={(event) => setUntil(event.currentTarget.value)}
        />
        <small>site time, {props.zone}; 14 days at most</small>
        {faults.textAt('until')}
      </div>
      <div class="layout-field wide">
        <label for={idOf('reason')}>Reason</label>
        <textarea
          id={idOf('reason')}
          {...faults.troubled('reason')}
          required
          maxlength="1000"
          value={reason()}
          onInput={(event) => setReason(event.currentTarget.value)}
        />
        <small>why nobody is to be told; kept for good</small>
        {faults.textAt('reason')}
      </div>
      <div class="layout-field">
        <label for={idOf('author')}>Your name</label>
        <input
          id={idOf('author')}
          {...faults.troubled('author')}
          type="text"
          required
          maxlength="200"
          value={author()}
          onInput={(event) => setAuthor(event.currentTarget.value)}
        />
        {faults.textAt('author')}
      </div>
      {faults.summary()}
      <div class="buttons">
        <WhenAllowed to="change-records">
          <button type="submit" class="primary" disabled={saving()}>
            Hold back from now
          </button>
        </WhenAllowed>
        <button type="button" onClick={() => props.leave()}>
          Leave it
        </button>
      </div>
    </form>
  )
}
