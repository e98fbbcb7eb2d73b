import type { Page } from 'playwright-core'

/** One finger over a board on the wall, from one place to another; at once, however slow the machine. */
export async function sweep(page: Page, fromX: number, untilX: number): Promise<void> {
  await page.evaluate(
    ([from, until]) => {
      const board = document.querySelector('.wall-head h1') as HTMLElement
      const finger = (kind: string, clientX: number) =>
        board.dispatchEvent(
          new PointerEvent(kind, {
            pointerType: 'touch',
            pointerId: 5,
            clientX,
            clientY: 400,
            bubbles: true,
          }),
        )
      finger('pointerdown', from)
      finger('pointerup', until)
    },
    [fromX, untilX] as const,
  )
}
