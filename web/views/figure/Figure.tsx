import { type JSX, onCleanup, onMount } from 'solid-js'
import { sync } from '../../ui/sync.ts'
import { createFigure } from './create-figure.ts'
import type { FigureEvents, FigureProps } from './figure-props.ts'

/** A figure; `shown` is read whenever it changes. */
export function Figure(props: { shown: () => FigureProps } & FigureEvents): JSX.Element {
  let room: HTMLDivElement | undefined
  onMount(() => {
    const view = createFigure(room as HTMLDivElement, { onChoose: (choice) => props.onChoose(choice) })
    sync(
      () => props.shown(),
      (shown) => view.update(shown),
    )
    onCleanup(() => view.destroy())
  })
  return <div class="view-room" ref={(element) => (room = element)} />
}
