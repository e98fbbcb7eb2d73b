let region: HTMLElement | undefined
let waiting: ReturnType<typeof setTimeout> | undefined

/** Names the element (aria-live, polite) into which announcements go. */
export function announceIn(element: HTMLElement): void {
  region = element
}

/** Says a sentence to a screen reader. Of several within a third of a second only the last is said. */
export function announce(sentence: string): void {
  clearTimeout(waiting)
  waiting = setTimeout(() => {
    if (region) region.textContent = sentence
  }, 300)
}
