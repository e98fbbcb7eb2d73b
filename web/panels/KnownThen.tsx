import { Show } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { lookBackMs } from '../derived/known-then.ts'
import { countedAtClock, knownAtClock, statesAtClock } from '../state/series-states.ts'
import { siteDocument } from '../state/site-document.ts'
import { describeState } from './describe-point.ts'

const dayMs = 86_400_000

/**
 * Where the clock is in the past and readings that the plan shows had not been received then: how the series stood by what
 * was known, by the same account as the plan with values as known then. Nothing where both are the same, or not told yet.
 */
export function KnownThen(props: { series: Series }) {
  const sentence = () => {
    const [known, number] = [knownAtClock(), props.series.series]
    if (known === null || countedAtClock() !== 'measured' || !known.later.has(number)) return null
    const [then, shown] = [known.states.get(number), statesAtClock()?.states.get(number)]
    if (then?.atEpochMs == null)
      return `Nothing taken within ${Math.round(lookBackMs(props.series) / dayMs)} days had been received at this instant: all that is shown came later.`
    if (shown?.atEpochMs == null || then.atEpochMs >= shown.atEpochMs) return null
    const words = describeState(
      props.series,
      then,
      known.atEpochMs,
      siteDocument()?.facts.levelNames ?? [],
      undefined,
    )
    return `Known then: ${words}. What is shown above came later.`
  }
  return <Show when={sentence()}>{(words) => <p class="trouble known-then">{words()}</p>}</Show>
}
