import { createSignal } from 'solid-js'
import type { StandingApproval } from '#domain/approval/approved-stretches.ts'
import { sendServer } from '../state/ask-server.ts'
import { showSaved, sitePath } from '../state/open-site.ts'
import { siteDocument } from '../state/site-document.ts'
import { announce } from '../ui/announce.ts'
import { WhenAllowed } from './access/WhenAllowed.tsx'
import { AuthorField } from './signed/AuthorField.tsx'
import { createSignedForm } from './signed/create-signed-form.ts'
import { WordsField } from './signed/WordsField.tsx'

/** Takes an approval back, with the reason. */
export function ApprovalWithdrawalForm(props: { approval: StandingApproval; leave: () => void }) {
  const form = createSignedForm((column) => (column === 'reason' ? column : null))
  const [reason, setReason] = createSignal('')
  const save = async (author: string) => {
    const site = siteDocument()?.facts.id ?? ''
    const { id } = props.approval
    await sendServer(sitePath(site, '/approvals/withdrawals'), { approval: id, reason: reason(), author })
    announce(`${id} is taken back`)
    props.leave()
    showSaved(site)
  }
  return (
    <form class="verdict-form" onSubmit={form.submits(save)} aria-label="Take an approval back">
      <WordsField
        form={form}
        field="reason"
        label={`Why ${props.approval.id} is taken back`}
        wide
        value={reason()}
        write={setReason}
      />
      <AuthorField form={form} />
      {form.faults.summary()}
      <div class="buttons">
        <WhenAllowed to="approve-readings">
          <button type="submit" class="primary" disabled={form.sending()}>
            Take it back
          </button>
        </WhenAllowed>
        <button type="button" onClick={() => props.leave()}>
          Leave it
        </button>
      </div>
    </form>
  )
}
