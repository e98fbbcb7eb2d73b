import { type JSX, onCleanup, onMount } from 'solid-js'
import { sync } from '../../ui/sync.ts'
import { createTimeHistory } from './create-time-history.ts'
import type { TimeHistoryEvents, TimeHistoryProps } from './history-props.ts'

/** Readings over time; `shown` is read whenever it changes. */
export function TimeHistory(props: { shown: () => TimeHistoryProps } & TimeHistoryEvents): JSX.Element {
  let room: HTMLDivElement | undefined
  onMount(() => {
    const view = createTimeHistory(room as HTMLDivElement, {
      onClock: (atEpochMs) => props.onClock(atEpochMs),
      onWindow: (fromEpochMs, untilEpochMs) => props.onWindow(fromEpochMs, untilEpochMs),
      onStretch: (stretch) => props.onStretch?.(stretch),
    })
    sync(
      () => props.shown(),
      (shown) => view.update(shown),
    )
    onCleanup(() => view.destroy())
  })
  return <div class="view-room" ref={(element) => (room = element)} />
}
