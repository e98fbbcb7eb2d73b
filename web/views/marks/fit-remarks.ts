/** Under a drawing remarks may take this share of the board; the rest is the drawing's. */
const mostShareUnder = 0.27

/**
 * Writes as many sentences as fit, the first at least: where text is large there is room for few, and the rest is counted,
 * never left out in silence.
 */
export function fitRemarks(
  sentences: readonly string[],
  write: (shown: readonly string[]) => void,
  fits: () => boolean,
): void {
  for (let kept = sentences.length; kept > 0; kept--) {
    const more = sentences.length - kept
    const rest = `${more} more ${more === 1 ? 'remark stands' : 'remarks stand'} with this view at the desk.`
    write(more === 0 ? sentences : [...sentences.slice(0, kept), rest])
    if (fits()) return
  }
  if (sentences.length === 0) write([])
}

/** Height that remarks may take, CSS pixels: that of their place beside a drawing, or a share of the board under it. */
export function roomForRemarks(root: HTMLElement, drawing: Element, spoken: HTMLElement): number {
  const isBeside = spoken.getBoundingClientRect().left >= drawing.getBoundingClientRect().right - 1
  return isBeside ? spoken.clientHeight : root.clientHeight * mostShareUnder
}
