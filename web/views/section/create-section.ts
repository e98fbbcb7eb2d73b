import { drawMarks } from '../marks/draw-marks.ts'
import { onceAFrame } from '../marks/once-a-frame.ts'
import { createViewFrame, element, fillTable, listenForChoice, openOnPaper } from '../marks/view-frame.ts'
import { sectionScene } from './scene.ts'
import { groundTables } from './section-ground-tables.ts'
import { type KeyEntry, sectionKey } from './section-key.ts'
import { layOutSection } from './section-layout.ts'
import type { SectionEvents, SectionProps } from './section-props.ts'
import { sectionRemarks, sectionTable } from './section-table.ts'
import { waterLineSentences } from './water-line-marks.ts'
import '../marks/marks.css'
import './section.css'

export interface Section {
  update(props: SectionProps): void
  destroy(): void
}

/** Limits of offset, joins of layers and movement scales that can be chosen. */
export const offsetLimitsMetres = [5, 10, 15, 25, 50] as const
export const layerJoinLimitsMetres = [0, 15, 30, 60, 100] as const
export const movementExaggerations = [1, 50, 100, 200, 500] as const

/** A cut through the site along a line, drawn into a container that gives the room. */
export function createSection(container: HTMLElement, events: SectionEvents): Section {
  let props: SectionProps | null = null
  const drawing = onceAFrame(() => draw())
  const frame = createViewFrame(container, 'section', () => draw())
  const tools = element('div', 'view-tools')
  const scale = element('button', 'view-tool', 'True scale')
  scale.type = 'button'
  scale.addEventListener('click', () => props && events.onTrueScale(!props.trueScale))
  const limit = choice('Points within', offsetLimitsMetres, (metres) => `${metres} m`, events.onOffsetLimit)
  const joins = choice(
    'Layers within',
    layerJoinLimitsMetres,
    (metres) => `${metres} m`,
    events.onJoinLayersWithin,
  )
  const movement = choice(
    'Movements',
    movementExaggerations,
    (times) => (times === 1 ? 'true' : `${times} times`),
    events.onMovementExaggeration,
  )
  tools.append(scale, limit.label, joins.label, movement.label)
  frame.root.prepend(tools)
  // At one scale both ways its height decides how large it is: on a board what is said stands beside it.
  frame.root.classList.add('said-beside')
  const keyFold = element('details', 'view-table view-key')
  const key = element('ul', '')
  keyFold.append(element('summary', '', 'What the signs mean'), key)
  frame.root.append(keyFold)
  keyFold.addEventListener('toggle', () => draw())
  const details = element('details', 'view-table')
  const tables = element('div', 'view-tables')
  details.append(element('summary', '', 'The same as tables'), tables)
  frame.root.append(details)
  details.addEventListener('toggle', () => draw())
  listenForChoice(frame.drawing, events.onSelectPoint)

  const stopPaper = openOnPaper(details, () => draw())
  const stopKeyOnPaper = openOnPaper(keyFold, () => draw())

  const draw = () => {
    if (!props) return
    scale.setAttribute('aria-pressed', String(props.trueScale))
    limit.show(props.offsetLimitMetres)
    joins.show(props.joinLayersWithinMetres)
    movement.show(props.movementExaggeration)
    frame.draw(
      sectionScene(props, frame.size()),
      'Section through the site. Each measuring point can be reached with the Tab key.',
    )
    const remarks = sectionRemarks(props)
    frame.say(
      props.line.length < 2
        ? remarks
        : [...remarks, ...waterLineSentences(props, layOutSection(props, frame.size()))],
    )
    if (keyFold.open)
      fillKey(key, props.line.length < 2 ? [] : sectionKey(props, layOutSection(props, frame.size())))
    if (!details.open) return
    const wanted = [sectionTable(props), ...groundTables(props)]
    while (tables.childElementCount > wanted.length) tables.lastElementChild?.remove()
    while (tables.childElementCount < wanted.length) tables.append(element('table', ''))
    wanted.forEach(({ caption, headings, rows }, place) => {
      fillTable(tables.children[place] as HTMLTableElement, caption, headings, rows)
    })
  }

  return {
    update(next) {
      props = next
      drawing.ask()
    },
    destroy() {
      drawing.cancel()
      stopPaper()
      stopKeyOnPaper()
      frame.destroy()
      props = null
    },
  }
}

function choice(
  name: string,
  of: readonly number[],
  text: (value: number) => string,
  onChoose: (value: number) => void,
) {
  const label = element('label', 'view-choice', name)
  const select = element('select', 'view-tool')
  for (const value of of) {
    const option = element('option', '', text(value))
    option.value = String(value)
    select.append(option)
  }
  select.addEventListener('change', () => onChoose(Number(select.value)))
  label.append(select)
  return {
    label,
    show(value: number) {
      if (!of.includes(value) && !select.querySelector(`option[value="${value}"]`)) {
        const option = element('option', '', text(value))
        option.value = String(value)
        select.append(option)
      }
      select.value = String(value)
    },
  }
}

function fillKey(list: HTMLUListElement, entries: readonly KeyEntry[]): void {
  list.replaceChildren(
    ...entries.map(({ marks, means }) => {
      const sign = document.createElementNS('http://www.w3.org/2000/svg', 'svg')
      sign.setAttribute('viewBox', '0 0 34 20')
      sign.setAttribute('class', 'view-drawing key-sign')
      sign.setAttribute('aria-hidden', 'true')
      drawMarks(sign, marks)
      const item = element('li', '')
      item.append(sign, means)
      return item
    }),
  )
}
