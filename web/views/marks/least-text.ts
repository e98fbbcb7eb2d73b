/**
 * No text of a drawing inside `element` may be smaller, CSS pixels: a container states it as `data-least-text`, because
 * boards on a wall are read from five metres. 0 where none is stated.
 */
export function leastTextPixels(element: Element): number {
  const stated = Number(element.closest('[data-least-text]')?.getAttribute('data-least-text') ?? 0)
  return Number.isFinite(stated) ? stated : 0
}
