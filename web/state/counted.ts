import { createSignal } from 'solid-js'

/** Whether a value counts at a past instant from when it was taken, or only once it had been received. */
export const countings = ['measured', 'known'] as const
export type Counting = (typeof countings)[number]

const [counting, setCounting] = createSignal<Counting>('measured')

/** What was chosen. What is drawn may differ while it is being worked out: see `countedAtClock`. */
export { counting }

export function chooseCounting(chosen: Counting): void {
  setCounting(chosen)
}
