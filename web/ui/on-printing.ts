/** Tells when the page begins to be laid out for paper and when it stops; returns how to hear no more. */
export function onPrinting(tell: (printing: boolean) => void): () => void {
  const media = globalThis.matchMedia?.('print')
  let last = false
  const become = (printing: boolean) => {
    if (printing === last) return
    last = printing
    tell(printing)
  }
  const begin = () => become(true)
  const end = () => become(false)
  const change = (event: MediaQueryListEvent) => become(event.matches)
  globalThis.addEventListener?.('beforeprint', begin)
  globalThis.addEventListener?.('afterprint', end)
  media?.addEventListener('change', change)
  return () => {
    globalThis.removeEventListener?.('beforeprint', begin)
    globalThis.removeEventListener?.('afterprint', end)
    media?.removeEventListener('change', change)
  }
}
