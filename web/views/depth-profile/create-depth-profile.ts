import { createViewFrame, element, fillTable, listenForChoice } from '../marks/view-frame.ts'
import type { DepthProfileEvents, DepthProfileProps } from './profile-props.ts'
import { profileRemarks, profileTable } from './profile-table.ts'
import { depthProfileScene } from './scene.ts'
import '../marks/marks.css'
import './depth-profile.css'

export interface DepthProfile {
  update(props: DepthProfileProps): void
  destroy(): void
}

/** Values of a string by depth, drawn into a container that gives the room. */
export function createDepthProfile(container: HTMLElement, events: DepthProfileEvents): DepthProfile {
  let props: DepthProfileProps | null = null
  let scheduled = 0
  const frame = createViewFrame(container, 'depth-profile', () => draw())
  const details = element('details', 'view-table')
  const table = element('table', '')
  details.append(element('summary', '', 'The same as a table'), table)
  frame.root.append(details)
  details.addEventListener('toggle', () => draw())
  listenForChoice(frame.drawing, events.onSelectPoint)

  const draw = () => {
    if (!props) return
    frame.draw(
      depthProfileScene(props, frame.size()),
      `${props.valueName} by depth in ${props.instrument}. Each marked point can be reached with the Tab key.`,
    )
    frame.say(profileRemarks(props))
    if (!details.open) return
    const { caption, headings, rows } = profileTable(props)
    fillTable(table, caption, headings, rows)
  }

  return {
    update(next) {
      props = next
      if (scheduled) return
      scheduled = requestAnimationFrame(() => {
        scheduled = 0
        draw()
      })
    },
    destroy() {
      if (scheduled) cancelAnimationFrame(scheduled)
      frame.destroy()
      props = null
    },
  }
}
