import { createSignal, type JSX, Show } from 'solid-js'
import { type DecisionPart, decisionParts, type ProposalsAsked } from '#contract/proposals.ts'
import type { Action } from '#domain/access/permissions.ts'
import { isAnotherPerson, isProposer, type Kept, type Proposal } from '#domain/proposals/proposal.ts'
import { announce } from '../../ui/announce.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { WordsField } from '../signed/WordsField.tsx'

/** Approving or turning down by another person than the proposer, and where it may be, taking back by that one. */
export function DecisionForm(props: {
  proposal: Kept<Proposal>
  proposals: {
    list: () => ProposalsAsked | null
    decide: (number: number, part: DecisionPart, reason: string, author: string) => Promise<void>
  }
  /** What a proposal is called here: `Proposal`, `Correction`. */
  name: string
  /** What whoever decides must be allowed, and who that is in a sentence. */
  to: Action
  whoDecides: string
  /** On the button that turns it down, and how what was turned down is told. */
  turnDown: readonly [button: string, told: string]
  mayBeWithdrawn?: boolean
  /** It does not go with the records any more: it can be turned down alone. */
  isStale?: boolean
  approved?: () => void
  /** What is to be known before one decides. */
  children?: JSX.Element
}) {
  const form = createSignedForm((column) => (column === 'reason' ? column : null))
  const [reason, setReason] = createSignal('')
  const asked = () => props.proposals.list()
  const whoever = () => ({ name: form.author(), account: asked()?.account ?? null })
  const isOwn = () => isProposer(props.proposal, whoever())
  const isSame = () => form.author().trim() !== '' && !isAnotherPerson(props.proposal, whoever())
  const mayDecide = () => asked()?.mayDecide === true && !(asked()?.namesAreProven && isOwn())
  const mayWithdraw = () => props.mayBeWithdrawn === true && isOwn()
  const decide = (part: DecisionPart) =>
    form.send(async (author) => {
      await props.proposals.decide(props.proposal.number, part, reason(), author)
      const told = part === 'rejection' ? props.turnDown[1] : decisionParts[part]
      announce(`${props.name} ${props.proposal.number} is ${told}`)
      if (part === 'approval') props.approved?.()
    })
  const button = (part: DecisionPart, text: string, isHindered: () => boolean) => (
    <button
      type="button"
      classList={{ primary: part === 'approval' }}
      disabled={form.sending() || isHindered()}
      onClick={() => void decide(part)}
    >
      {text}
    </button>
  )
  return (
    <Show when={mayDecide() || mayWithdraw()} fallback={<p>{props.whoDecides}</p>}>
      <WhenAllowed to={asked()?.mayDecide ? props.to : 'change-records'}>
        <form
          class="verdict-form"
          onSubmit={(event) => event.preventDefault()}
          aria-label={`Decide ${props.name.toLowerCase()} ${props.proposal.number}`}
        >
          {props.children}
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
            hint={isSame() ? `${props.proposal.author} proposed this; a second person decides.` : undefined}
          />
          {form.faults.summary()}
          <div class="buttons">
            <Show when={mayDecide()}>
              {button('approval', 'Approve', () => isSame() || props.isStale === true)}
              {button('rejection', props.turnDown[0], isSame)}
            </Show>
            <Show when={mayWithdraw()}>{button('withdrawal', 'Withdraw', () => false)}</Show>
          </div>
        </form>
      </WhenAllowed>
    </Show>
  )
}
