import { createSignal, For, Show } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { markedDays } from '../queries/marked-days.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { WhenAllowed } from './access/WhenAllowed.tsx'
import { createAnswer } from './create-answer.ts'
import { markedSentence } from './marked-sentence.ts'
import { VerdictForm } from './VerdictForm.tsx'
import { VerdictList } from './VerdictList.tsx'
import { verdictDrafts } from './verdict-drafts.ts'

/** What is said of a series' readings: by the automatic checks of late, and by people. Neither changes the other. */
export function ReadingRemarks(props: { series: Series }) {
  const [begun, setBegun] = createSignal<string | null>(null)
  const entering = () => begun() === props.series.id || verdictDrafts.of(props.series.id) !== null
  const asked = createAnswer(() => {
    const atEpochMs = clockEpochMs()
    return atEpochMs === null
      ? null
      : markedDays({ atEpochMs: Math.floor(atEpochMs / dayMs) * dayMs, series: props.series.series })
  })
  return (
    <section aria-label="What is said of its readings">
      <h3>What is said of its readings</h3>
      <Show when={asked.answer()} fallback={<p class="waiting">Counting marks of automatic checks …</p>}>
        {(answer) => <p>{markedSentence(answer().columns, props.series.made === true)}</p>}
      </Show>
      <For each={asked.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <VerdictList series={props.series.id} lookAgain />
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
          <VerdictForm series={[props.series]} saved={() => setBegun(null)} leave={() => setBegun(null)} />
        )}
      </Show>
    </section>
  )
}

const dayMs = 86_400_000
