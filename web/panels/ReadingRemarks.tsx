import { createSignal, For, Show } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { markedDays } from '../queries/marked-days.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { WhenAllowed } from './access/WhenAllowed.tsx'
import { createAnswer } from './create-answer.ts'
import { markedSentence } from './marked-sentence.ts'
import { VerdictForm } from './VerdictForm.tsx'
import { VerdictList } from './VerdictList.tsx'

/** What is said of a series' readings: by the automatic checks of late, and by people. Neither changes the other. */
export function ReadingRemarks(props: { series: Series }) {
  const [entering, setEntering] = createSignal<string | null>(null)
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
        when={entering() === props.series.id}
        fallback={
          <WhenAllowed to="change-records">
            <div class="buttons">
              <button type="button" onClick={() => setEntering(props.series.id)}>
                Enter a verdict
              </button>
            </div>
          </WhenAllowed>
        }
      >
        <VerdictForm
          series={[props.series]}
          saved={() => setEntering(null)}
          leave={() => setEntering(null)}
        />
      </Show>
    </section>
  )
}

const dayMs = 86_400_000
