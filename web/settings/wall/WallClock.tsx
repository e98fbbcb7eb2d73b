import { For } from 'solid-js'
import { chooseSpeed, hoursPerSecond, pause, play, playing, playSpeeds } from '../../state/playback.ts'
import { countedAtClock, statesLag, statesTrouble } from '../../state/series-states.ts'
import { clockEpochMs, isAtPresent, scrubTo, spanEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { stagesAtClock } from '../../state/works-stage.ts'
import { formatInstant, formatOffset } from '../../ui/format-instant.ts'
import { sync } from '../../ui/sync.ts'

const hourMs = 3_600_000

/** The one clock of works and readings in large type: instant and stage, and what runs it. It ends at the cut-off. */
export function WallClock() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const at = () => clockEpochMs() ?? 0
  const stage = () =>
    stagesAtClock()
      .map(({ name }) => name)
      .join(' · ') || 'No stage of the works under way'
  const standing = () => {
    if (isAtPresent()) return 'at the cut-off'
    const trouble = statesTrouble()
    if (trouble !== null) return 'states not known'
    if (statesLag()) return 'being worked out'
    return countedAtClock() === 'known' ? 'replayed as known then' : 'replayed, values as measured'
  }
  // In this order: a range holds its value within the ends it has at that moment.
  const followClock = (range: HTMLInputElement) =>
    sync(
      () => ({ ...spanEpochMs(), atEpochMs: at() }),
      ({ fromEpochMs, untilEpochMs, atEpochMs }) => {
        range.min = String(fromEpochMs)
        range.max = String(untilEpochMs)
        range.value = String(atEpochMs)
      },
    )
  return (
    <section class="wall-clock" aria-label="Clock of works and readings">
      <p class="wall-instant">
        <time datetime={new Date(at()).toISOString()}>{formatInstant(at(), zone())}</time>{' '}
        <small>
          {formatOffset(at(), zone())}, {standing()}
        </small>
      </p>
      <p class="wall-stage">{stage()}</p>
      <div class="wall-replay">
        <button
          type="button"
          aria-label={playing() ? 'Pause the replay (K)' : 'Replay works and readings (K)'}
          onClick={() => (playing() ? pause() : play())}
        >
          {playing() ? 'Pause' : 'Replay'}
        </button>
        <select
          aria-label="Speed of the replay"
          value={hoursPerSecond()}
          onChange={(event) => chooseSpeed(Number(event.currentTarget.value))}
        >
          <For each={playSpeeds}>{(speed) => <option value={speed.hoursPerSecond}>{speed.name}</option>}</For>
        </select>
        <input
          type="range"
          aria-label="Clock of works and readings"
          aria-valuetext={`${formatInstant(at(), zone())} ${formatOffset(at(), zone())}`}
          step={hourMs}
          ref={followClock}
          onPointerUp={(event) => event.currentTarget.blur()}
          onInput={(event) => {
            pause()
            scrubTo(Number(event.currentTarget.value))
          }}
        />
      </div>
    </section>
  )
}
