import { createSignal, Show } from 'solid-js'
import type { ListedCorrection } from '#contract/correction-proposals.ts'
import { rawStaysSentence } from '#domain/corrections/correction-proposal.ts'
import { isAnotherPerson, isProposer } from '#domain/proposals/proposal.ts'
import { announce } from '../../ui/announce.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { WordsField } from '../signed/WordsField.tsx'
import type { Corrections } from './create-corrections.ts'

const done = { approval: 'approved', rejection: 'turned down', withdrawal: 'withdrawn' } as const

/** Approving or turning down by another person than the proposer, and taking back by that one. */
export function CorrectionDecisionForm(props: {
  proposal: ListedCorrection
  corrections: Corrections
  approved: () => void
}) {
  const form = createSignedForm((column) => (column === 'reason' ? column : null))
  const [reason, setReason] = createSignal('')
  const list = () => props.corrections.list()
  const whoever = () => ({ name: form.author(), account: list()?.account ?? null })
  const isOwn = () => isProposer(props.proposal, whoever())
  const isOther = () => isAnotherPerson(props.proposal, whoever())
  const decide = (kind: keyof typeof done) =>
    form.send(async (author) => {
      await props.corrections.decide(props.proposal.number, kind, reason(), author)
      announce(`Correction ${props.proposal.number} is ${done[kind]}`)
      if (kind === 'approval') props.approved()
    })
  const mayAnything = () => list()?.mayDecide === true || isOwn()
  return (
    <Show
      when={mayAnything()}
      fallback={<p>Somebody who may approve readings, other than {props.proposal.author}, decides.</p>}
    >
      <WhenAllowed to={list()?.mayDecide ? 'approve-readings' : 'change-records'}>
        <form
          class="verdict-form"
          onSubmit={(event) => event.preventDefault()}
          aria-label={`Decide correction ${props.proposal.number}`}
        >
          <p>
            {rawStaysSentence} Values are published anew from then on, and approvals of readings in that time
            become provisional again. Verdicts and levels stay as they are.
          </p>
          <WordsField
            form={form}
            field="reason"
            label="What was checked, or why not"
            wide
            value={reason()}
            write={setReason}
          />
          <AuthorField
            form={form}
            hint={isOwn() ? `${props.proposal.author} proposed this; a second person decides.` : undefined}
          />
          {form.faults.summary()}
          <div class="buttons">
            <Show when={list()?.mayDecide && !(list()?.namesAreProven && isOwn())}>
              <button
                type="button"
                class="primary"
                disabled={form.sending() || !isOther() || props.proposal.stale.length > 0}
                onClick={() => void decide('approval')}
              >
                Approve
              </button>
              <button
                type="button"
                disabled={form.sending() || !isOther()}
                onClick={() => void decide('rejection')}
              >
                Turn down
              </button>
            </Show>
            <Show when={isOwn()}>
              <button type="button" disabled={form.sending()} onClick={() => void decide('withdrawal')}>
                Withdraw
              </button>
            </Show>
          </div>
        </form>
      </WhenAllowed>
    </Show>
  )
}
