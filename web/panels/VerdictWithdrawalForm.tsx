import type { Verdict } from '#domain/site/tables.ts'
import { sendServer } from '../state/ask-server.ts'
import { showSaved, sitePath } from '../state/open-site.ts'
import { siteDocument } from '../state/site-document.ts'
import { announce } from '../ui/announce.ts'
import { formatInstant } from '../ui/format-instant.ts'
import { AuthorField } from './signed/AuthorField.tsx'
import { createSignedForm } from './signed/create-signed-form.ts'
import { WordsField } from './signed/WordsField.tsx'
import { withdrawalDrafts } from './verdict-drafts.ts'

/** Takes a verdict back, by a record of its own. */
export function VerdictWithdrawalForm(props: { verdict: Verdict; leave: () => void }) {
  const form = createSignedForm((column) => (column === 'reason' ? column : null))
  const reason = () => withdrawalDrafts.of(props.verdict.id) ?? ''
  const leave = (verdict: string) => {
    withdrawalDrafts.leave(verdict)
    props.leave()
  }
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const save = async (author: string) => {
    const site = siteDocument()?.facts.id ?? ''
    const { id } = props.verdict
    await sendServer(sitePath(site, '/verdicts/withdrawals'), { verdict: id, reason: reason(), author })
    announce(`${id} is withdrawn`)
    leave(id)
    showSaved(site)
  }
  return (
    <form class="verdict-form" onSubmit={form.submits(save)} aria-label="Withdrawal of a verdict">
      <p>
        {props.verdict.id}, {props.verdict.verdict} from {formatInstant(props.verdict.fromAt, zone())} by{' '}
        {props.verdict.author}, would hold no longer. It stays on record with your reason.
      </p>
      <WordsField
        form={form}
        field="reason"
        label="Why it is withdrawn"
        wide
        first
        value={reason()}
        write={(text) => withdrawalDrafts.keep(props.verdict.id, text)}
      />
      <AuthorField form={form} />
      {form.faults.summary()}
      <div class="buttons">
        <button type="submit" class="primary" disabled={form.sending()}>
          Withdraw {props.verdict.id}
        </button>
        <button type="button" onClick={() => leave(props.verdict.id)}>
          Leave it
        </button>
      </div>
    </form>
  )
}
