import { sweptTo, type TouchedAt } from './swept-to.ts'

/** Tells of every sweep of one finger over an element but over its controls. Returns what ends it. */
export function listenForSwipe(element: HTMLElement, swept: (to: 'on' | 'back') => void): () => void {
  let from: (TouchedAt & { readonly pointer: number }) | null = null
  let fingers = 0
  const down = (event: PointerEvent) => {
    if (event.pointerType === 'mouse') return
    fingers += 1
    const isControl =
      event.target instanceof Element && event.target.closest('button, input, select') !== null
    from =
      fingers > 1 || isControl
        ? null
        : { pointer: event.pointerId, x: event.clientX, y: event.clientY, atMs: event.timeStamp }
  }
  const up = (event: PointerEvent) => {
    if (event.pointerType === 'mouse') return
    fingers = Math.max(0, fingers - 1)
    if (from?.pointer !== event.pointerId) return
    const to = sweptTo(from, { x: event.clientX, y: event.clientY, atMs: event.timeStamp })
    from = null
    if (to !== null) swept(to)
  }
  const cancel = () => {
    fingers = 0
    from = null
  }
  // Before the map, which takes what happens on it.
  element.addEventListener('pointerdown', down, true)
  element.addEventListener('pointerup', up, true)
  element.addEventListener('pointercancel', cancel, true)
  return () => {
    element.removeEventListener('pointerdown', down, true)
    element.removeEventListener('pointerup', up, true)
    element.removeEventListener('pointercancel', cancel, true)
  }
}
