import { For, Show } from 'solid-js'
import type { ListedCorrection } from '#contract/correction-proposals.ts'
import { rawStaysSentence } from '#domain/corrections/correction-proposal.ts'
import { isFrozen } from '../../state/frozen.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { DecisionForm } from '../proposals/DecisionForm.tsx'
import { correctionTitle, decisionSentence, effectSentences } from './correction-sentences.ts'
import type { Corrections } from './create-corrections.ts'
import './corrections.css'

/** Corrections that wait for a second person, and what became of the others. */
export function CorrectionList(props: {
  corrections: Corrections
  /** Series that they must be of; null: whatever they are of. */
  about: string | null
  /** Told when one was approved. */
  approved: () => void
}) {
  const list = () => props.corrections.list()
  const wanted = () =>
    (list()?.proposals ?? [])
      .filter(({ changes }) => props.about === null || changes.some(({ series }) => series === props.about))
      .toReversed()
  const waiting = () => wanted().filter(({ decision }) => decision === null)
  const decided = () => wanted().filter(({ decision }) => decision !== null)
  const each = (proposals: () => readonly ListedCorrection[]) => (
    <For each={proposals()}>
      {(proposal) => (
        <Proposal proposal={proposal} corrections={props.corrections} approved={props.approved} />
      )}
    </For>
  )
  return (
    <section class="corrections" aria-label="Corrections offered">
      <Show when={!isFrozen() && props.corrections.trouble()}>
        {(sentence) => (
          <p class="waiting">
            Corrections that were offered are not known here: {sentence()}{' '}
            {list() ? 'What stands below is as last heard.' : ''}
          </p>
        )}
      </Show>
      <Show when={waiting().length > 0}>
        <h3>Corrections that wait for a second person: {waiting().length}</h3>
        <Show when={list()?.namesAreProven === false}>
          <p>Nobody has an account here: names are typed, not proven.</p>
        </Show>
        {each(waiting)}
      </Show>
      <Show when={decided().length > 0}>
        <details>
          <summary>Corrections decided: {decided().length}</summary>
          {each(decided)}
        </details>
      </Show>
    </section>
  )
}

function Proposal(props: { proposal: ListedCorrection; corrections: Corrections; approved: () => void }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const levelName = (level: number) => siteDocument()?.facts.levelNames[level - 1] ?? `Level ${level}`
  const evidence = () => props.proposal.evidence
  return (
    <article class="corrections-proposal" aria-label={`Correction ${props.proposal.number}`}>
      <h4>
        Correction {props.proposal.number}: {props.proposal.reason}
      </h4>
      <p>
        Proposed by {props.proposal.author}, {formatInstant(props.proposal.atEpochMs, zone())}.{' '}
        {decisionSentence(props.proposal, zone())}
      </p>
      <dl>
        <For each={props.proposal.changes}>
          {(change) => (
            <>
              <dt>{correctionTitle(change, zone())}</dt>
              <dd>
                <p>On record: {change.before}</p>
                <p>Proposed: {change.after}</p>
              </dd>
            </>
          )}
        </For>
      </dl>
      <h5>What it does, as worked out when it was proposed</h5>
      <ul>
        <For each={evidence().effects}>
          {(effect) => (
            <For each={effectSentences(effect, levelName, zone())}>{(sentence) => <li>{sentence}</li>}</For>
          )}
        </For>
        <Show when={evidence().alsoChanges.length > 0}>
          <li>
            It changes {evidence().alsoChanges.join(', ')} too; levels on these are shown in the sandbox.
          </li>
        </Show>
      </ul>
      <Show when={props.proposal.decision === null}>
        <p>
          <a href={evidence().sandbox}>See it in the sandbox</a>, worked out anew on what is recorded now.
        </p>
        <Show when={props.proposal.overlaps.length > 0}>
          <p class="trouble">
            Correction {props.proposal.overlaps.join(', ')} waits too and is of the same series and time: one
            alone can be approved.
          </p>
        </Show>
        <Show when={props.proposal.stale.length > 0}>
          <p class="trouble">
            The records changed since, so it cannot be approved any more. {props.proposal.stale.join(' ')}
          </p>
        </Show>
        <DecisionForm
          proposal={props.proposal}
          proposals={props.corrections}
          name="Correction"
          to="approve-readings"
          whoDecides={`Somebody who may approve readings, other than ${props.proposal.author}, decides.`}
          turnDown={['Turn down', 'turned down']}
          mayBeWithdrawn
          isStale={props.proposal.stale.length > 0}
          approved={props.approved}
        >
          <p>
            {rawStaysSentence} Values are published anew from then on, and approvals of readings in that time
            become provisional again. Verdicts and levels stay as they are.
          </p>
        </DecisionForm>
      </Show>
    </article>
  )
}
