import { createSignal, createUniqueId } from 'solid-js'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { fromLocalField, toLocalField } from '../../ui/format-instant.ts'
import { LevelText } from '../LevelText.tsx'
import type { Proposals } from './create-proposals.ts'
import { SignProposal } from './SignProposal.tsx'

/** Proposes that a level ends. */
export function EndLevelForm(props: { proposals: Proposals; level: TriggerLevel; done: () => void }) {
  const form = createUniqueId()
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const unit = () => siteDocument()?.series.find(({ id }) => id === props.level.series)?.unit ?? ''
  const [end, setEnd] = createSignal(toLocalField(siteNowEpochMs(), zone()))
  const [reason, setReason] = createSignal('')
  const changes = () => {
    const atEpochMs = fromLocalField(end(), zone())
    return atEpochMs === null ? null : [{ kind: 'end' as const, id: props.level.id, atEpochMs }]
  }
  return (
    <section class="levels-page" aria-label={`End ${props.level.id}`}>
      <h2>End {props.level.id}</h2>
      <p>
        {props.level.series}: <LevelText level={props.level} unit={unit()} zone={zone()} />
      </p>
      <div class="levels-fields">
        <label for={`${form}-end`}>
          No longer applies from
          <input
            id={`${form}-end`}
            type="datetime-local"
            required
            value={end()}
            onInput={(event) => setEnd(event.currentTarget.value)}
          />
          <small>site time, {zone()}; not before it is approved</small>
        </label>
      </div>
      <SignProposal
        proposals={props.proposals}
        changes={changes}
        reason={reason()}
        setReason={setReason}
        done={props.done}
      />
    </section>
  )
}
