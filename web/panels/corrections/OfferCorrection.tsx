import { createSignal, For, Show } from 'solid-js'
import type { CorrectionTaken } from '#contract/correction-proposals.ts'
import { rawStaysSentence } from '#domain/corrections/correction-proposal.ts'
import type { OfferedCorrections } from '#domain/corrections/offered-corrections.ts'
import { announce } from '../../ui/announce.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { WordsField } from '../signed/WordsField.tsx'
import type { Corrections } from './create-corrections.ts'

/** Offers what was found in the sandbox for the record, or says why it cannot be offered. */
export function OfferCorrection(props: {
  offered: OfferedCorrections
  /** Changes of the sandbox that could not be made. */
  faults: number
  corrections: Corrections
  /** Query part of the address in which the sandbox shows the same, `?…`. */
  address: () => string
}) {
  const [isOpen, setOpen] = createSignal(false)
  const [taken, setTaken] = createSignal<CorrectionTaken | null>(null)
  /** What was offered here, while it still waits. */
  const waiting = () => {
    const one = taken()
    const listed = props.corrections.list()?.proposals.find(({ number }) => number === one?.number)
    return listed === undefined || listed.decision === null ? one : null
  }
  const hindrances = () => [
    ...props.offered.hindrances,
    ...(props.faults > 0
      ? ['Some of what is tried could not be done, so the sandbox does not show what would be offered.']
      : []),
  ]
  const count = () => props.offered.changes.length
  return (
    <section class="corrections-offer" aria-label="Offer for approval">
      <Show when={waiting()}>
        {(one) => (
          <p role="status">
            Proposal {one().number} waits for a second person; it stands below.
            <Show when={one().overlaps.length > 0}>
              {' '}
              Proposal {one().overlaps.join(', ')} is of the same series and time: once one of them is
              approved, the others have to be tried anew.
            </Show>
          </p>
        )}
      </Show>
      <Show
        when={hindrances().length === 0}
        fallback={
          <>
            <p>This sandbox cannot be offered for the record as it stands:</p>
            <ul>
              <For each={hindrances()}>{(sentence) => <li>{sentence}</li>}</For>
            </ul>
            <p>Take these out to offer the rest.</p>
          </>
        }
      >
        <Show when={count() > 0}>
          <WhenAllowed to="change-records">
            <Show
              when={isOpen()}
              fallback={
                <div class="buttons">
                  <button type="button" onClick={() => setOpen(true)}>
                    Offer for approval
                  </button>
                </div>
              }
            >
              <OfferForm
                {...props}
                taken={(one) => {
                  setTaken(one)
                  setOpen(false)
                }}
                leave={() => setOpen(false)}
              />
            </Show>
          </WhenAllowed>
        </Show>
      </Show>
    </section>
  )
}

function OfferForm(props: {
  offered: OfferedCorrections
  corrections: Corrections
  address: () => string
  taken: (taken: CorrectionTaken) => void
  leave: () => void
}) {
  const form = createSignedForm((column) => (column === 'reason' ? column : null))
  const [reason, setReason] = createSignal('')
  const count = () => props.offered.changes.length
  const offer = async (author: string) => {
    const taken = await props.corrections.propose({
      changes: [...props.offered.changes],
      sandbox: props.address(),
      reason: reason(),
      author,
    })
    announce(`Proposal ${taken.number} waits for a second person`)
    props.taken(taken)
  }
  return (
    <form class="verdict-form" onSubmit={form.submits(offer)} aria-label="Offer for approval">
      <p>
        {rawStaysSentence} {count() === 1 ? 'One dated change' : `${count()} dated changes`}, as listed above.
        Nothing changes until a second person approves.
      </p>
      <WordsField
        form={form}
        field="reason"
        label="Why the record is wrong"
        hint="what was seen and checked; kept with the record for good"
        wide
        first
        value={reason()}
        write={setReason}
      />
      <AuthorField form={form} />
      {form.faults.summary()}
      <Show when={form.sending()}>
        <p class="waiting">Working out its effect on every reading …</p>
      </Show>
      <div class="buttons">
        <button type="submit" class="primary" disabled={form.sending()}>
          Offer {count() === 1 ? 'it' : `all ${count()}`} for approval
        </button>
        <button type="button" onClick={() => props.leave()}>
          Leave it
        </button>
      </div>
    </form>
  )
}
