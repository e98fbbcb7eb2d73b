import { createSignal } from 'solid-js'
import type { StandingApproval } from '#domain/approval/approved-stretches.ts'
import { sendServer } from '../state/ask-server.ts'
import { showSaved, sitePath } from '../state/open-site.ts'
import { siteDocument } from '../state/site-document.ts'
import { announce } from '../ui/announce.ts'
import { createSignedForm } from './signed/create-signed-form.ts'
import { SignedEnd } from './signed/SignedEnd.tsx'
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
      <SignedEnd form={form} to="approve-readings" leave={props.leave}>
        Take it back
      </SignedEnd>
    </form>
  )
}
