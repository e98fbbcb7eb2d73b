import { onceAFrame } from '../marks/once-a-frame.ts'
import { createViewFrame, element, fillTable, listenForChoice, openOnPaper } from '../marks/view-frame.ts'
import type { FigureEvents, FigureProps } from './figure-props.ts'
import { figureScene } from './scene.ts'
import '../marks/marks.css'
import './figure.css'

export interface FigureView {
  update(props: FigureProps): void
  destroy(): void
}

/** A figure with its remarks and its table, drawn into a container that gives the room. */
export function createFigure(container: HTMLElement, events: FigureEvents): FigureView {
  let props: FigureProps | null = null
  const drawing = onceAFrame(() => draw())
  const frame = createViewFrame(container, 'figure', () => draw())
  const details = element('details', 'view-table')
  const table = element('table', '')
  details.append(element('summary', '', 'The same as a table'), table)
  frame.root.append(details)
  details.addEventListener('toggle', () => draw())
  listenForChoice(frame.drawing, events.onChoose)

  const stopPaper = openOnPaper(details, () => draw())

  const draw = () => {
    if (!props) return
    frame.draw(figureScene(props, frame.size()), props.title)
    frame.say(props.remarks)
    if (details.open) fillTable(table, props.table.caption, props.table.headings, props.table.rows)
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
