import { Show } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { knownLast } from '../queries/known-history.ts'
import { statesAtClock } from '../state/series-states.ts'
import { clockEpochMs, isAtPresent } from '../state/site-clock.ts'
import { createAnswer } from './create-answer.ts'
import { knownStateWords } from './known-state.ts'

const lookBackMs = 62 * 86_400_000
const hourMs = 3_600_000

/**
 * Where the clock is in the past and readings that the plan shows had not been received then: how the series stood by what
 * was known. Nothing where both are the same.
 */
export function KnownThen(props: { series: Series }) {
  const state = () => {
    const judged = statesAtClock()
    // While the clock runs the states lag behind it.
    return judged && judged.atEpochMs === clockEpochMs() ? judged.states.get(props.series.series) : undefined
  }
  const asked = createAnswer(() => {
    const at = clockEpochMs()
    if (at === null || isAtPresent() || state()?.atEpochMs == null) return null
    return {
      ...knownLast({
        series: props.series.series,
        sinceEpochMs: Math.floor((at - lookBackMs) / hourMs) * hourMs,
        knownAtEpochMs: at,
      }),
      atEpochMs: at,
    }
  })
  const sentence = () => {
    const [answer, shown] = [asked.answer(), state()?.atEpochMs]
    if (!answer || shown == null || answer.question.atEpochMs !== clockEpochMs()) return null
    const { columns, question } = answer
    if (columns.rows === 0)
      return 'Nothing taken within 62 days had been received at this instant: all that is shown came later.'
    const [at, value] = ['at_ms', 'value'].map((name) => columns.number(name)[0] as number) as [
      number,
      number,
    ]
    if (at >= shown) return null
    const words = knownStateWords(
      props.series,
      { atEpochMs: at, value: Number.isFinite(value) ? value : null },
      question.atEpochMs,
    )
    return `Known then: ${words}. What is shown above came later.`
  }
  return <Show when={sentence()}>{(words) => <p class="trouble known-then">{words()}</p>}</Show>
}
