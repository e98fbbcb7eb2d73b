import { type Accessor, createSignal, onCleanup } from 'solid-js'

/** Width of an element in CSS pixels as it changes; give `measure` to its `ref`. */
export function createWidth(
  firstPixels: number,
): [width: Accessor<number>, measure: (element: Element) => void] {
  const [width, setWidth] = createSignal(firstPixels)
  const measure = (element: Element) => {
    const sizes = new ResizeObserver(() => setWidth(Math.max(1, Math.round(element.clientWidth))))
    sizes.observe(element)
    onCleanup(() => sizes.disconnect())
  }
  return [width, measure]
}
