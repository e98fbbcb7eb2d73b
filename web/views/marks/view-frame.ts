import { onPrinting } from '../../ui/on-printing.ts'
import { drawMarks } from './draw-marks.ts'
import { fitRemarks, roomForRemarks } from './fit-remarks.ts'
import { fitText } from './fit-text.ts'
import { leastTextPixels } from './least-text.ts'
import type { Mark } from './mark.ts'

/** Room of a drawing, and the size of its text; `leastTextPixels`: no text in it may be smaller, 0 where that is not stated. */
interface FrameSize {
  readonly widthPixels: number
  readonly heightPixels: number
  readonly fontPixels: number
  readonly leastTextPixels: number
}

/** A drawing that fills what room it has, and the words beside it. */
export interface ViewFrame {
  readonly root: HTMLElement
  readonly drawing: SVGSVGElement
  /** Sentences on what is missing or awaited; announced when they change. */
  say(sentences: readonly string[]): void
  size(): FrameSize
  draw(marks: readonly Mark[], name: string): void
  destroy(): void
}

/** Makes the frame inside a container; `onResize` follows every change of its size. */
export function createViewFrame(container: HTMLElement, className: string, onResize: () => void): ViewFrame {
  const root = element('div', `view-frame ${className}`)
  const drawing = document.createElementNS('http://www.w3.org/2000/svg', 'svg')
  drawing.setAttribute('role', 'group')
  drawing.setAttribute('class', 'view-drawing')
  const remarks = element('ul', 'view-remarks')
  const spoken = element('div', '')
  spoken.setAttribute('role', 'status')
  spoken.append(remarks)
  root.append(drawing, spoken)
  container.append(root)
  const watcher = typeof ResizeObserver === 'undefined' ? null : new ResizeObserver(onResize)
  watcher?.observe(drawing)
  let saidFor = ''
  return {
    root,
    drawing,
    say(sentences) {
      const write = (shown: readonly string[]) =>
        remarks.replaceChildren(...shown.map((sentence) => element('li', '', sentence)))
      const isBoard = leastTextPixels(drawing) > 0
      const room = isBoard ? roomForRemarks(root, drawing, spoken) : 0
      const next = [isBoard ? `${spoken.clientWidth} ${room}` : '', ...sentences].join('\n')
      if (next === saidFor) return
      saidFor = next
      if (isBoard) fitRemarks(sentences, write, () => remarks.offsetHeight <= room)
      else write(sentences)
    },
    size() {
      const widthPixels = Math.max(220, drawing.clientWidth || 800)
      const heightPixels = Math.max(200, drawing.clientHeight || 480)
      const least = leastTextPixels(drawing)
      const fontPixels = Math.max(least, fitText(widthPixels, heightPixels))
      return { widthPixels, heightPixels, fontPixels, leastTextPixels: least }
    },
    draw(marks, name) {
      const { widthPixels, heightPixels, fontPixels } = this.size()
      drawing.setAttribute('viewBox', `0 0 ${widthPixels} ${heightPixels}`)
      drawing.setAttribute('font-size', String(fontPixels))
      if (drawing.getAttribute('aria-label') !== name) drawing.setAttribute('aria-label', name)
      drawMarks(drawing, marks)
    },
    destroy() {
      watcher?.disconnect()
      root.remove()
    },
  }
}

export function element<N extends keyof HTMLElementTagNameMap>(
  name: N,
  className: string,
  text?: string,
): HTMLElementTagNameMap[N] {
  const made = document.createElement(name)
  if (className) made.className = className
  if (text !== undefined) made.textContent = text
  return made
}

/** Calls back with the choice of a choosable mark that was pressed, by pointer or by key. */
export function listenForChoice(drawing: SVGSVGElement, onChoose: (choice: string) => void): void {
  const choose = (event: Event) => {
    const marked = (event.target as Element | null)?.closest('[data-choice]')
    const choice = marked?.getAttribute('data-choice')
    if (choice) {
      event.preventDefault()
      onChoose(choice)
    }
  }
  drawing.addEventListener('click', choose)
  drawing.addEventListener('keydown', (event) => {
    if (event.key === 'Enter' || event.key === ' ') choose(event)
  })
}

/** Rows of a plain table: the same numbers as the drawing. The first cell of each row is its heading. */
export function fillTable(
  table: HTMLTableElement,
  caption: string,
  headings: readonly string[],
  rows: readonly (readonly string[])[],
): void {
  const head = element('tr', '')
  head.append(
    ...headings.map((heading) => {
      const cell = element('th', '', heading)
      cell.scope = 'col'
      return cell
    }),
  )
  const body = rows.map((row) => {
    const made = element('tr', '')
    made.append(
      ...row.map((text, place) => {
        const cell = element(place === 0 ? 'th' : 'td', '', text)
        if (place === 0) cell.setAttribute('scope', 'row')
        return cell
      }),
    )
    return made
  })
  const thead = element('thead', '')
  thead.append(head)
  const tbody = element('tbody', '')
  tbody.append(...body)
  table.replaceChildren(element('caption', '', caption), thead, tbody)
}

/** Opens a folded part for as long as the page is on paper, where nothing can be unfolded; returns how to stop. */
export function openOnPaper(details: HTMLDetailsElement, draw: () => void): () => void {
  let wasOpen = false
  return onPrinting((printing) => {
    if (printing) wasOpen = details.open
    details.open = printing || wasOpen
    if (printing) draw()
  })
}
