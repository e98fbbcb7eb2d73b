/** Leaves a mark in the page's timeline once the frame is drawn that shows what is there now. */
export const markDrawn = (name: string): void => {
  requestAnimationFrame(() => setTimeout(() => performance.mark(name)))
}
