import { type JSX, onCleanup, onMount } from 'solid-js'
import { sync } from '../../ui/sync.ts'
import { createDepthProfile } from './create-depth-profile.ts'
import type { DepthProfileEvents, DepthProfileProps } from './profile-props.ts'

/** Values by depth; `shown` is read whenever it changes. */
export function DepthProfile(props: { shown: () => DepthProfileProps } & DepthProfileEvents): JSX.Element {
  let room: HTMLDivElement | undefined
  onMount(() => {
    const view = createDepthProfile(room as HTMLDivElement, {
      onSelectPoint: (point) => props.onSelectPoint(point),
    })
    sync(
      () => props.shown(),
      (shown) => view.update(shown),
    )
    onCleanup(() => view.destroy())
  })
  return <div class="view-room" ref={(element) => (room = element)} />
}
