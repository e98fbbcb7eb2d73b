import { createSignal } from 'solid-js'
import { sendServer } from '../../state/ask-server.ts'
import { refreshDuties } from '../../state/duties.ts'
import { sitePath } from '../../state/open-site.ts'
import { siteDocument } from '../../state/site-document.ts'
import { announce } from '../../ui/announce.ts'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { SignedEnd } from '../signed/SignedEnd.tsx'
import { WordsField } from '../signed/WordsField.tsx'

/** Ends the suppression of that id before its time, by a record of its own. */
export function EndSuppressionForm(props: { suppression: string; leave: () => void }) {
  const form = createSignedForm((column) => (column === 'reason' ? column : null))
  const [reason, setReason] = createSignal('')
  const save = async (author: string) => {
    const site = siteDocument()?.facts.id ?? ''
    const id = props.suppression
    await sendServer(sitePath(site, '/suppressions/ends'), { suppression: id, reason: reason(), author })
    announce(`${id} is ended; its alerts are sent from now on`)
    props.leave()
    void refreshDuties(site)
  }
  return (
    <form class="verdict-form" onSubmit={form.submits(save)} aria-label="End of a suppression">
      <p>
        {props.suppression}: alerts that nobody acknowledged meanwhile are told at once. The suppression stays
        on record.
      </p>
      <WordsField
        form={form}
        field="reason"
        label="Why it is ended"
        wide
        first
        value={reason()}
        write={setReason}
      />
      <SignedEnd form={form} to="change-records" leave={props.leave}>
        End {props.suppression} now
      </SignedEnd>
    </form>
  )
}
