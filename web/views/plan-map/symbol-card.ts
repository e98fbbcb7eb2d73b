export interface SymbolCard {
  show(lines: readonly string[], x: number, y: number, widthPixels: number, heightPixels: number): void
  hide(): void
  destroy(): void
}

/** The card beside a symbol: name in the first line, value, age and state below. Purely to look at. */
export function createSymbolCard(parent: HTMLElement): SymbolCard {
  const box = document.createElement('div')
  box.className = 'symbol-card'
  box.hidden = true
  box.setAttribute('aria-hidden', 'true')
  parent.append(box)
  return {
    show(lines, x, y, widthPixels, heightPixels) {
      box.replaceChildren(
        ...lines.map((line, place) => {
          const row = document.createElement(place === 0 ? 'strong' : 'span')
          row.textContent = line
          return row
        }),
      )
      box.hidden = false
      // A plan lower than the card, under a raised sheet, would show a piece of it: the selection says the same.
      if (box.offsetHeight > heightPixels - 44) {
        box.hidden = true
        return
      }
      const left = x + 30 + box.offsetWidth > widthPixels - 20 ? x - 30 - box.offsetWidth : x + 30
      const top = Math.min(Math.max(22, y - box.offsetHeight / 2), heightPixels - box.offsetHeight - 22)
      box.style.transform = `translate(${Math.round(Math.max(20, left))}px, ${Math.round(top)}px)`
    },
    hide() {
      box.hidden = true
    },
    destroy: () => box.remove(),
  }
}
