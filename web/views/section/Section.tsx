import { type JSX, onCleanup, onMount } from 'solid-js'
import { sync } from '../../ui/sync.ts'
import { createSection } from './create-section.ts'
import type { SectionEvents, SectionProps } from './section-props.ts'

/** A cut through the site; `shown` is read whenever it changes. */
export function Section(props: { shown: () => SectionProps } & SectionEvents): JSX.Element {
  let room: HTMLDivElement | undefined
  onMount(() => {
    const view = createSection(room as HTMLDivElement, {
      onSelectPoint: (point) => props.onSelectPoint(point),
      onTrueScale: (trueScale) => props.onTrueScale(trueScale),
      onOffsetLimit: (metres) => props.onOffsetLimit(metres),
      onJoinLayersWithin: (metres) => props.onJoinLayersWithin(metres),
      onMovementExaggeration: (times) => props.onMovementExaggeration(times),
    })
    sync(
      () => props.shown(),
      (shown) => view.update(shown),
    )
    onCleanup(() => view.destroy())
  })
  return <div class="view-room" ref={(element) => (room = element)} />
}
