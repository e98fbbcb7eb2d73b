/**
 * Makes a drawing that is asked for any number of times between two frames happen once, in the next:
 * several changes of state in one turn are one drawing.
 */
export function onceAFrame(draw: () => void): { ask(): void; cancel(): void } {
  let scheduled = 0
  return {
    ask() {
      if (scheduled) return
      scheduled = requestAnimationFrame(() => {
        scheduled = 0
        draw()
      })
    },
    cancel() {
      if (scheduled) cancelAnimationFrame(scheduled)
      scheduled = 0
    },
  }
}
