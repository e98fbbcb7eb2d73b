import { createSignal, createUniqueId, Show } from 'solid-js'
import type { LevelChange } from '#domain/levels/level-change.ts'
import { signedInName } from '../../state/own-account.ts'
import { rememberedName, rememberName } from '../../state/own-name.ts'
import { announce } from '../../ui/announce.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { createFaults } from '../create-faults.tsx'
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
  const form = createUniqueId()
  const faults = createFaults<'author' | 'reason'>(form, (column) =>
    column === 'author' || column === 'reason' ? column : null,
  )
  const [author, setAuthor] = createSignal(rememberedName())
  const [sending, setSending] = createSignal(false)
  const send = async (event: SubmitEvent) => {
    event.preventDefault()
    faults.clear()
    const changes = props.changes()
    if (changes === null) return
    rememberName(author())
    setSending(true)
    try {
      const number = await props.proposals.propose({
        changes: [...changes],
        reason: props.reason,
        author: author(),
      })
      announce(`Proposal ${number} waits for a second person`)
      props.done()
    } catch (cause) {
      faults.take(cause)
    } finally {
      setSending(false)
    }
  }
  return (
    <form class="verdict-form" onSubmit={(event) => void send(event)} aria-label="Propose">
      <div class="layout-field wide">
        <label for={`${form}-reason`}>Reason of the proposal</label>
        <textarea
          id={`${form}-reason`}
          {...faults.troubled('reason')}
          required
          maxlength="1000"
          value={props.reason}
          onInput={(event) => props.setReason(event.currentTarget.value)}
        />
        <small>
          kept for good; a level that was reached lately is moved away only after a design review, named here
        </small>
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
          readonly={signedInName() !== null}
          value={author()}
          onInput={(event) => setAuthor(event.currentTarget.value)}
        />
        {faults.textAt('author')}
      </div>
      <p>
        Nothing changes until a second person approves.{' '}
        <Show when={props.proposals.list()?.namesAreProven === false}>
          Nobody has an account here: names are typed, not proven.
        </Show>
      </p>
      {faults.summary()}
      <div class="buttons">
        <WhenAllowed to="change-records">
          <button type="submit" class="primary" disabled={sending() || props.changes() === null}>
            Propose
          </button>
        </WhenAllowed>
      </div>
    </form>
  )
}
