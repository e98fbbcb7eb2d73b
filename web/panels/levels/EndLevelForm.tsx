import { createSignal, createUniqueId, Show } from 'solid-js'
import type { LevelPreview } from '#contract/level-proposals.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { sentenceOf } from '../../state/ask-server.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { fromLocalField, toLocalField } from '../../ui/format-instant.ts'
import { sync } from '../../ui/sync.ts'
import { LevelText } from '../LevelText.tsx'
import type { Proposals } from './create-proposals.ts'
import { PreviewResult } from './PreviewResult.tsx'
import { SignProposal } from './SignProposal.tsx'

const restMs = 700
const lookBackMs = 31 * 86_400_000

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
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const [preview, setPreview] = createSignal<LevelPreview | null>(null)
  sync(
    () => [changes(), reason()] as const,
    ([made, said]) => {
      // What was found against another end says nothing of this one.
      setPreview(null)
      setTrouble(null)
      const judge = async () => {
        if (made === null) return
        // Whether it was reached within thirty days decides whether it may end without a design review.
        const fromEpochMs = siteNowEpochMs() - lookBackMs
        const answer = await props.proposals.preview({ changes: made, reason: said, fromEpochMs })
        if (answer) setPreview(answer)
      }
      const timer = setTimeout(() => void judge().catch((cause) => setTrouble(sentenceOf(cause))), restMs)
      return () => clearTimeout(timer)
    },
  )
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
      <div class="levels-judged" aria-live="polite">
        <Show
          when={preview()}
          fallback={
            <Show when={trouble()} fallback={<p>Looking at what speaks against it …</p>}>
              {(sentence) => <p class="trouble">What speaks against it is not known: {sentence()}</p>}
            </Show>
          }
        >
          {(shown) => <PreviewResult preview={shown()} named={true} />}
        </Show>
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
