import type { Page } from 'playwright-core'

/** A text on the screen, its size as drawn, and where it stands. */
export interface TextOnBoard {
  readonly text: string
  readonly of: string
  readonly pixels: number
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  /** Edges of the panel beside the plan that it stands in, beyond which it is cut; null: in none. */
  readonly panel: {
    readonly left: number
    readonly right: number
    readonly top: number
    readonly bottom: number
  } | null
}

/** Every text that a board shows, of drawings too, with the size at which it is drawn after all scaling. */
export const textsOfBoard = (page: Page): Promise<readonly TextOnBoard[]> =>
  page.evaluate(() => {
    const found: TextOnBoard[] = []
    const board = document.querySelector('.wall')
    if (!board) return found
    const walk = document.createTreeWalker(board, NodeFilter.SHOW_TEXT)
    while (walk.nextNode()) {
      const node = walk.currentNode
      const parent = node.parentElement
      if (!parent || node.textContent?.trim() === '') continue
      if (parent.closest('.visually-hidden, title, option')) continue
      // Rows that are being put on pages are not seen.
      if (!parent.checkVisibility({ visibilityProperty: true })) continue
      const range = document.createRange()
      range.selectNodeContents(node)
      const { left, right, top, bottom, width } = range.getBoundingClientRect()
      if (width === 0) continue
      const drawing = parent.closest('svg')
      const drawn = drawing?.viewBox.baseVal.width
        ? drawing.getBoundingClientRect().width / drawing.viewBox.baseVal.width
        : 1
      const pixels = Number.parseFloat(getComputedStyle(parent).fontSize) * drawn
      const of = `${parent.tagName} ${parent.getAttribute('class') ?? ''}`
      const panel = parent.closest('.wall-key')?.getBoundingClientRect().toJSON() ?? null
      found.push({ text: node.textContent ?? '', of, pixels, left, right, top, bottom, panel })
    }
    return found
  })
