import type { Direction } from './pick-symbol.ts'

/** What keys on the plan do. */
export interface PlanKeyActions {
  panTowards(direction: Direction): void
  selectTowards(direction: Direction): void
  zoom(steps: number): void
  fit(): void
  enter(): void
  escape(): void
  /** Whether a line is being drawn, to which some keys belong. */
  isDrawing(): boolean
  takeBackCorner(): void
  finishLine(): void
}

const arrows: Readonly<Record<string, Direction>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
}

/** Answers keys pressed on the canvas itself; all others go on to the page. */
export function planKeys(canvas: HTMLElement, actions: PlanKeyActions): (event: KeyboardEvent) => void {
  return (event) => {
    if (event.target !== canvas || event.ctrlKey || event.metaKey || event.altKey) return
    const direction = arrows[event.key]
    if (direction && event.shiftKey) actions.panTowards(direction)
    else if (direction) actions.selectTowards(direction)
    else if (event.key === '+' || event.key === '=') actions.zoom(0.5)
    else if (event.key === '-') actions.zoom(-0.5)
    else if (event.key === '0') actions.fit()
    else if (event.key === 'Enter') actions.enter()
    else if (event.key === 'Backspace' && actions.isDrawing()) actions.takeBackCorner()
    else if (event.key === 'f' && actions.isDrawing()) actions.finishLine()
    else if (event.key === 'Escape') actions.escape()
    else return
    event.preventDefault()
    event.stopPropagation()
  }
}
