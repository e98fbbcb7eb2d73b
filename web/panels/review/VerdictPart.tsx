import { createSignal, Show } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import type { WeighedEvidence } from '#domain/site/verdict-evidence.ts'
import type { HistoryStretch } from '../../views/time-history/history-props.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { VerdictForm } from '../VerdictForm.tsx'
import { VerdictList } from '../VerdictList.tsx'
import { verdictDrafts } from '../verdict-drafts.ts'
import { ContradictedVerdicts } from './ContradictedVerdicts.tsx'
import { VerdictsAgain } from './VerdictsAgain.tsx'

/** Where a person decides: verdicts on the series, those to look at again, and a new one. */
export function VerdictPart(props: {
  series: Series
  evidence: WeighedEvidence | null
  /** Of a verdict that is about one reading: its minute. */
  oneReading: HistoryStretch | null
}) {
  const [begun, setBegun] = createSignal<string | null>(null)
  const [all, setAll] = createSignal(false)
  const entering = () => begun() === props.series.id || verdictDrafts.of(props.series.id) !== null
  return (
    <section aria-label="Verdict" id="review-verdict" tabindex="-1">
      <h3>Verdict</h3>
      <p>
        This ranks and explains; a person decides, with the responsible engineer. A verdict hides no reading
        and lowers no level.
      </p>
      <VerdictList series={props.series.id} />
      <Show
        when={entering() ? props.series.id : null}
        keyed
        fallback={
          <WhenAllowed to="change-records">
            <div class="buttons">
              <button type="button" onClick={() => setBegun(props.series.id)}>
                Enter a verdict
              </button>
            </div>
          </WhenAllowed>
        }
      >
        {(_about) => (
          <VerdictForm
            series={[props.series]}
            evidence={props.evidence}
            dragged={props.oneReading}
            saved={() => setBegun(null)}
            leave={() => setBegun(null)}
          />
        )}
      </Show>
      <h3>Verdicts to look at again</h3>
      <p>
        Each verdict is held against what is known at the clock. What speaks against it is told; a person
        reopens it or upholds it.
      </p>
      <VerdictsAgain series={props.series.id} />
      <ContradictedVerdicts />
      <details onToggle={(event) => setAll(event.currentTarget.open)}>
        <summary>All verdicts of the site</summary>
        <Show when={all()}>
          <VerdictsAgain />
        </Show>
      </details>
    </section>
  )
}
