import { onceAFrame } from '../marks/once-a-frame.ts'
import { createViewFrame, element, fillTable, listenForChoice, openOnPaper } from '../marks/view-frame.ts'
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
  const drawing = onceAFrame(() => draw())
  const frame = createViewFrame(container, 'depth-profile', () => draw())
  const details = element('details', 'view-table')
  const table = element('table', '')
  details.append(element('summary', '', 'The same as a table'), table)
  frame.root.append(details)
  details.addEventListener('toggle', () => draw())
  listenForChoice(frame.drawing, events.onSelectPoint)

  const stopPaper = openOnPaper(details, () => draw())

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
      drawing.ask()
    },
    destroy() {
      drawing.cancel()
      stopPaper()
      frame.destroy()
      props = null
    },
  }
}
