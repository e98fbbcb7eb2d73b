import { For } from 'solid-js'
import { type Counting, chooseCounting, counting, countings } from '../state/counted.ts'
import { playing } from '../state/playback.ts'
import { knownTroubleAtClock, laterAtClock } from '../state/series-states.ts'
import { isAtPresent } from '../state/site-clock.ts'
import { standingSummary } from '../state/standing-summary.ts'
import { countedSentence } from './counted-sentence.ts'

const names: Readonly<Record<Counting, string>> = { measured: 'As measured', known: 'As known then' }

/** Beside the clock: whether values count as they were measured or as they were known then. */
export function CountingChoice() {
  return (
    <select
      class="clock-counting"
      aria-label="How values count at a past instant"
      aria-describedby="counted-then"
      value={counting()}
      onChange={(event) => chooseCounting(event.currentTarget.value as Counting)}
    >
      <For each={countings}>{(one) => <option value={one}>{names[one]}</option>}</For>
    </select>
  )
}

/** What that comes to at the clock. Always a line: the plan must not change its size while the clock runs. */
export function CountedThen() {
  const later = () => (laterAtClock() === null ? null : (standingSummary()?.cameLater ?? null))
  return (
    <p
      class="clock-counted"
      id="counted-then"
      classList={{ 'some-later': knownTroubleAtClock() !== null || (later() ?? 0) > 0 }}
    >
      {countedSentence({
        isPresent: isAtPresent(),
        isPlaying: playing(),
        wanted: counting(),
        trouble: knownTroubleAtClock(),
        later: later(),
      })}
    </p>
  )
}
