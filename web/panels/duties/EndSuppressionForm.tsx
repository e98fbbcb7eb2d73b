import { createSignal, createUniqueId } from 'solid-js'
import { sendServer } from '../../state/ask-server.ts'
import { refreshDuties } from '../../state/duties.ts'
import { sitePath } from '../../state/open-site.ts'
import { rememberedName, rememberName } from '../../state/own-name.ts'
import { siteDocument } from '../../state/site-document.ts'
import { announce } from '../../ui/announce.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { createFaults } from '../create-faults.tsx'

type Field = 'reason' | 'author'
const fieldOfIssue = (column: string | number | undefined): Field | null =>
  column === 'reason' || column === 'author' ? column : null

/** Ends the suppression of that id before its time, by a record of its own. */
export function EndSuppressionForm(props: { suppression: string; leave: () => void }) {
  const form = createUniqueId()
  const faults = createFaults(form, fieldOfIssue)
  const [reason, setReason] = createSignal('')
  const [author, setAuthor] = createSignal(rememberedName())
  const [saving, setSaving] = createSignal(false)
  const save = async (event: SubmitEvent) => {
    event.preventDefault()
    faults.clear()
    rememberName(author())
    setSaving(true)
    const site = siteDocument()?.facts.id ?? ''
    const id = props.suppression
    try {
      const draft = { suppression: id, reason: reason(), author: author() }
      await sendServer(sitePath(site, '/suppressions/ends'), draft)
      announce(`${id} is ended; its alerts are sent from now on`)
      props.leave()
      void refreshDuties(site)
    } catch (cause) {
      faults.take(cause)
    } finally {
      setSaving(false)
    }
  }
  const field = (name: Field, label: string, value: () => string, set: (text: string) => void) => (
    <div class="layout-field wide">
      <label for={`${form}-${name}`}>{label}</label>
      <input
        id={`${form}-${name}`}
        {...faults.troubled(name)}
        type="text"
        required
        maxlength={name === 'reason' ? 1000 : 200}
        value={value()}
        onInput={(event) => set(event.currentTarget.value)}
        ref={(input) => {
          if (name === 'reason') queueMicrotask(() => input.focus())
        }}
      />
      {faults.textAt(name)}
    </div>
  )
  return (
    <form class="verdict-form" onSubmit={(event) => void save(event)} aria-label="End of a suppression">
      <p>
        {props.suppression}: alerts that nobody acknowledged meanwhile are told at once. The suppression stays
        on record.
      </p>
      {field('reason', 'Why it is ended', reason, setReason)}
      {field('author', 'Your name', author, setAuthor)}
      {faults.summary()}
      <div class="buttons">
        <WhenAllowed to="change-records">
          <button type="submit" class="primary" disabled={saving()}>
            End {props.suppression} now
          </button>
        </WhenAllowed>
        <button type="button" onClick={() => props.leave()}>
          Leave it
        </button>
      </div>
    </form>
  )
}
