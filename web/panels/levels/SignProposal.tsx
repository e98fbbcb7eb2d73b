import { Show } from 'solid-js'
import type { LevelChange } from '#domain/levels/level-change.ts'
import { announce } from '../../ui/announce.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { WordsField } from '../signed/WordsField.tsx'
import type { Proposals } from './create-proposals.ts'

/** Reason and name under changes, and the button that proposes them. */
export function SignProposal(props: {
  proposals: Proposals
  /** Null: what is written above cannot be read yet. */
  changes: () => readonly LevelChange[] | null
  reason: string
  setReason: (reason: string) => void
  done: () => void
}) {
  const form = createSignedForm((column) => (column === 'reason' ? column : null))
  const propose = async (author: string) => {
    const changes = props.changes()
    if (changes === null) return
    const { number } = await props.proposals.propose({ changes: [...changes], reason: props.reason, author })
    announce(`Proposal ${number} waits for a second person`)
    props.done()
  }
  return (
    <form class="verdict-form" onSubmit={form.submits(propose)} aria-label="Propose">
      <WordsField
        form={form}
        field="reason"
        label="Reason of the proposal"
        hint="kept for good; a level that was reached lately is moved away only after a design review, named here"
        wide
        value={props.reason}
        write={props.setReason}
      />
      <AuthorField form={form} />
      <p>
        Nothing changes until a second person approves.{' '}
        <Show when={props.proposals.list()?.namesAreProven === false}>
          Nobody has an account here: names are typed, not proven.
        </Show>
      </p>
      {form.faults.summary()}
      <div class="buttons">
        <WhenAllowed to="change-records">
          <button type="submit" class="primary" disabled={form.sending() || props.changes() === null}>
            Propose
          </button>
        </WhenAllowed>
      </div>
    </form>
  )
}
