import { createSignal, createUniqueId } from 'solid-js'
import type { StandingApproval } from '#domain/approval/approved-stretches.ts'
import { sendServer } from '../state/ask-server.ts'
import { showSaved, sitePath } from '../state/open-site.ts'
import { rememberedName, rememberName } from '../state/own-name.ts'
import { siteDocument } from '../state/site-document.ts'
import { announce } from '../ui/announce.ts'
import { WhenAllowed } from './access/WhenAllowed.tsx'
import { createFaults } from './create-faults.tsx'

/** Takes an approval back, with the reason. */
export function ApprovalWithdrawalForm(props: { approval: StandingApproval; leave: () => void }) {
  const form = createUniqueId()
  const faults = createFaults<'reason' | 'author'>(form, (column) =>
    column === 'reason' || column === 'author' ? column : null,
  )
  const [reason, setReason] = createSignal('')
  const [author, setAuthor] = createSignal(rememberedName())
  const save = async (event: SubmitEvent) => {
    event.preventDefault()
    faults.clear()
    rememberName(author())
    const site = siteDocument()?.facts.id ?? ''
    try {
      await sendServer(sitePath(site, '/approvals/withdrawals'), {
        approval: props.approval.id,
        reason: reason(),
        author: author(),
      })
      announce(`${props.approval.id} is taken back`)
      props.leave()
      showSaved(site)
    } catch (cause) {
      faults.take(cause)
    }
  }
  return (
    <form class="verdict-form" onSubmit={(event) => void save(event)} aria-label="Take an approval back">
      <div class="layout-field wide">
        <label for={`${form}-reason`}>Why {props.approval.id} is taken back</label>
        <textarea
          id={`${form}-reason`}
          {...faults.troubled('reason')}
          required
          maxlength="1000"
          value={reason()}
          onInput={(event) => setReason(event.currentTarget.value)}
        />
        {faults.textAt('reason')}
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
      {faults.summary()}
      <div class="buttons">
        <WhenAllowed to="approve-readings">
          <button type="submit" class="primary">
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
