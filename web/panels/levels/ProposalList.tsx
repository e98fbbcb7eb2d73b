import { createSignal, createUniqueId, For, Show } from 'solid-js'
import type { ProposedChange } from '#domain/levels/level-change.ts'
import type { StoredProposal } from '#domain/levels/level-proposal.ts'
import { isAnotherPerson } from '#domain/levels/level-proposal.ts'
import { rememberedName, rememberName } from '../../state/own-name.ts'
import { siteDocument } from '../../state/site-document.ts'
import { announce } from '../../ui/announce.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { RecordHistory } from '../audit/RecordHistory.tsx'
import { createFaults } from '../create-faults.tsx'
import { LevelText } from '../LevelText.tsx'
import type { Proposals } from './create-proposals.ts'
import { nameOfLevel } from './level-names.ts'

/** Proposals that wait for a second person, and what became of the others. */
export function ProposalList(props: { proposals: Proposals; about: string | null; all: () => void }) {
  const list = () => props.proposals.list()
  const wanted = () =>
    (list()?.proposals ?? [])
      .filter(({ changes }) => props.about === null || changes.some((change) => isAbout(change, props.about)))
      .toReversed()
  const waiting = () => wanted().filter(({ decision }) => decision === null)
  const notKnown = () => (props.proposals.trouble() ? 'Not known here.' : 'Asking for them …')
  const decided = () => wanted().filter(({ decision }) => decision !== null)
  return (
    <section class="levels-page" aria-label="Proposals">
      <Show when={props.proposals.trouble()}>
        {(sentence) => (
          <p class="trouble">
            {sentence()} {list() ? 'What stands below is as last heard.' : ''}
          </p>
        )}
      </Show>
      <Show when={props.about}>
        {(about) => (
          <>
            <p>
              What was proposed about {about()}.{' '}
              <button type="button" onClick={() => props.all()}>
                Show all proposals
              </button>
            </p>
            <RecordHistory of={about()} records={[{ kind: 'triggerLevels', keys: [about()] }]} />
          </>
        )}
      </Show>
      <Show when={list()?.namesAreProven === false}>
        <p class="trouble">
          Nobody has an account here. A second name is asked for, but names are typed and nobody proves them.
        </p>
      </Show>
      <h2>Waiting for a second person</h2>
      <Show when={waiting().length > 0} fallback={<p>{list() ? 'None waits.' : notKnown()}</p>}>
        <For each={waiting()}>
          {(proposal) => <Proposal proposal={proposal} proposals={props.proposals} />}
        </For>
      </Show>
      <h2>Decided</h2>
      <Show when={decided().length > 0} fallback={<p>{list() ? 'None was decided here.' : notKnown()}</p>}>
        <For each={decided()}>
          {(proposal) => <Proposal proposal={proposal} proposals={props.proposals} />}
        </For>
      </Show>
    </section>
  )
}

const isAbout = (change: ProposedChange, id: string | null): boolean =>
  (change.kind !== 'add' && change.id === id) || (change.kind !== 'end' && change.level.id === id)

const mostChanges = 50

function Proposal(props: { proposal: StoredProposal; proposals: Proposals }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <article class="levels-proposal" aria-label={`Proposal ${props.proposal.number}`}>
      <h3>
        Proposal {props.proposal.number}: {props.proposal.reason}
      </h3>
      <p>
        {props.proposal.author}, {formatInstant(props.proposal.atEpochMs, zone())}
        <Show when={props.proposal.decision}>
          {(decision) => (
            <>
              {' '}
              – {decision().kind} by {decision().by}, {formatInstant(decision().atEpochMs, zone())}:{' '}
              {decision().reason}
            </>
          )}
        </Show>
      </p>
      <ul>
        <For each={props.proposal.changes.slice(0, mostChanges)}>
          {(change) => <Change change={change} />}
        </For>
        <Show when={props.proposal.changes.length > mostChanges}>
          <li>and {props.proposal.changes.length - mostChanges} more</li>
        </Show>
      </ul>
      <Show when={props.proposal.warnings.length > 0}>
        <ul class="trouble">
          <For each={props.proposal.warnings.slice(0, mostChanges)}>
            {({ level, sentence }) => (
              <li>
                {level === null ? '' : `${level}: `}
                {sentence}
              </li>
            )}
          </For>
        </ul>
      </Show>
      <Show when={props.proposal.decision === null && props.proposals.list()?.mayDecide}>
        <WhenAllowed to="approve-levels">
          <Decide proposal={props.proposal} proposals={props.proposals} />
        </WhenAllowed>
      </Show>
      <Show when={props.proposal.decision === null && props.proposals.list()?.mayDecide === false}>
        <p>An approver other than {props.proposal.author} decides.</p>
      </Show>
    </article>
  )
}

function Change(props: { change: ProposedChange }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const unitOf = (series: string) => siteDocument()?.series.find(({ id }) => id === series)?.unit ?? ''
  const level = () => (props.change.kind === 'end' ? null : props.change.level)
  return (
    <li>
      <Show when={props.change.before}>
        {(before) => (
          <>
            {before().id}: <LevelText level={before()} unit={unitOf(before().series)} zone={zone()} />
            {props.change.kind === 'end'
              ? ` ends ${formatInstant(props.change.atEpochMs, zone())}`
              : ' is replaced by '}
          </>
        )}
      </Show>
      <Show when={level()}>
        {(next) => (
          <>
            <strong>{next().id}</strong> ({nameOfLevel(next().level)} of {next().series}):{' '}
            <LevelText
              level={{ ...next(), author: '', approver: '' }}
              unit={unitOf(next().series)}
              zone={zone()}
            />
            , from {formatInstant(next().validFrom, zone())}. {next().action} <small>{next().owner}</small>{' '}
            <small>{next().reason}</small>
          </>
        )}
      </Show>
    </li>
  )
}

/** Approving or rejecting, by another person than the author. */
function Decide(props: { proposal: StoredProposal; proposals: Proposals }) {
  const form = createUniqueId()
  const faults = createFaults<'reason' | 'author'>(form, (column) =>
    column === 'author' || column === 'reason' ? column : null,
  )
  const signedInAs = () => props.proposals.list()?.signedInAs ?? null
  const [author, setAuthor] = createSignal(signedInAs() ?? rememberedName())
  const [reason, setReason] = createSignal('')
  const [sending, setSending] = createSignal(false)
  const same = () =>
    author().trim() !== '' && !isAnotherPerson(props.proposal, { name: author(), account: null })
  const decide = async (kind: 'approval' | 'rejection') => {
    faults.clear()
    setSending(true)
    if (signedInAs() === null) rememberName(author())
    try {
      await props.proposals.decide(props.proposal.number, kind, reason(), author())
      announce(`Proposal ${props.proposal.number} is ${kind === 'approval' ? 'approved' : 'rejected'}`)
    } catch (cause) {
      faults.take(cause)
    } finally {
      setSending(false)
    }
  }
  return (
    <form class="verdict-form" onSubmit={(event) => event.preventDefault()} aria-label="Decide">
      <div class="layout-field wide">
        <label for={`${form}-reason`}>What was checked, or why not</label>
        <textarea
          id={`${form}-reason`}
          {...faults.troubled('reason')}
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
          maxlength="200"
          readonly={signedInAs() !== null}
          value={author()}
          onInput={(event) => setAuthor(event.currentTarget.value)}
        />
        {faults.textAt('author')}
        <Show when={same()}>
          <small>{props.proposal.author} proposed this; a second person decides.</small>
        </Show>
      </div>
      {faults.summary()}
      <div class="buttons">
        <button
          type="button"
          class="primary"
          disabled={sending() || same()}
          onClick={() => void decide('approval')}
        >
          Approve
        </button>
        <button type="button" disabled={sending() || same()} onClick={() => void decide('rejection')}>
          Reject
        </button>
      </div>
    </form>
  )
}
