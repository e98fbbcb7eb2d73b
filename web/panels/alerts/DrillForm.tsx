import { createSignal, For } from 'solid-js'
import type { AlertRecord } from '#contract/alerts.ts'
import { refreshAlerts } from '../../state/alerts.ts'
import { openAlert } from '../../state/alerts-page.ts'
import { sendServer } from '../../state/ask-server.ts'
import { dutiesDocument } from '../../state/duties.ts'
import { sitePath } from '../../state/open-site.ts'
import { siteDocument } from '../../state/site-document.ts'
import { announce } from '../../ui/announce.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { FormField } from '../signed/FormField.tsx'
import { LineField } from '../signed/LineField.tsx'

/** An exercise to hold now: told to those on duty like an alert, and marked as an exercise. */
export function DrillForm(props: { site: string; duty: string | null }) {
  const form = createSignedForm((column) => (column === 'duty' || column === 'reason' ? column : null))
  const duties = () => [
    ...new Set([
      ...(props.duty === null ? [] : [props.duty]),
      ...(dutiesDocument()?.duties ?? []).map(({ duty }) => duty),
      ...(siteDocument()?.triggerLevels ?? []).map(({ owner }) => owner),
    ]),
  ]
  const [chosen, setChosen] = createSignal<string | null>(null)
  const duty = () => chosen() ?? duties()[0] ?? ''
  const [reason, setReason] = createSignal('Monthly test of the chain')
  const hold = async (author: string) => {
    const draft = { duty: duty(), reason: reason(), author }
    const record = await sendServer<AlertRecord>(sitePath(props.site, '/drills'), draft)
    announce(`Drill ${record.alert.alert} is being told`)
    refreshAlerts(props.site).catch(() => undefined)
    openAlert(record.alert.alert)
  }
  return (
    <form class="step-form" aria-label="Hold a drill" onSubmit={form.submits(hold)}>
      <FormField form={form} field="duty" label="Duty to be tested">
        <select
          id={form.idOf('duty')}
          {...form.faults.troubled('duty')}
          onInput={(event) => setChosen(event.currentTarget.value)}
        >
          <For each={duties()}>
            {(one) => (
              <option value={one} selected={one === duty()}>
                {one}
              </option>
            )}
          </For>
        </select>
      </FormField>
      <LineField
        form={form}
        field="reason"
        label="Why it is held"
        hint="Those on duty get it like an alert, marked as an exercise, and acknowledge it."
        mostCharacters={2000}
        value={reason()}
        write={setReason}
      />
      <AuthorField form={form} />
      {form.faults.summary()}
      <div class="buttons">
        <WhenAllowed to="change-records">
          <button type="submit" class="primary" disabled={form.sending() || duties().length === 0}>
            Hold the drill now
          </button>
        </WhenAllowed>
      </div>
    </form>
  )
}
