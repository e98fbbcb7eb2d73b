import { createSignal } from 'solid-js'

const [firstColour, setFirstColour] = createSignal(false)

/** True once every point has been drawn with its state; what can wait is fetched after that. */
export { firstColour }

export function reportFirstColour(): void {
  setFirstColour(true)
}
