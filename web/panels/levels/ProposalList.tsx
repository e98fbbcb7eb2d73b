import { For, Show } from 'solid-js'
import type { ProposedChange } from '#domain/levels/level-change.ts'
import type { LevelProposal } from '#domain/levels/level-proposal.ts'
import type { Kept } from '#domain/proposals/proposal.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { RecordHistory } from '../audit/RecordHistory.tsx'
import { LevelText } from '../LevelText.tsx'
import { DecisionForm } from '../proposals/DecisionForm.tsx'
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

function Proposal(props: { proposal: Kept<LevelProposal>; proposals: Proposals }) {
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
      <Show when={props.proposal.decision === null}>
        <DecisionForm
          proposal={props.proposal}
          proposals={props.proposals}
          name="Proposal"
          to="approve-levels"
          whoDecides={`An approver other than ${props.proposal.author} decides.`}
          turnDown={['Reject', 'rejected']}
        />
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
