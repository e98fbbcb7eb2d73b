import { createMemo, createRoot, createSignal } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { reviewPage } from './review-page.ts'
import { sheetTab } from './sheet.ts'
import { siteLookup } from './site-document.ts'

/** More would not be told apart. */
export const mostCompared = 12

const [compared, setCompared] = createSignal<readonly string[]>([])
const [wantsPicking, setWantsPicking] = createSignal(false)

/** Series that are compared, point/measure, in the order in which they were taken. */
export { compared }

export const comparedSeries = createRoot(() =>
  createMemo((): readonly Series[] => compared().flatMap((id) => siteLookup().seriesById.get(id) ?? [])),
)

/** True while a tap on the plan or a line of the register takes a series to the comparison, or out of it. */
export const pickingCompared = (): boolean =>
  wantsPicking() && (sheetTab() === 'register' || (sheetTab() === 'review' && reviewPage() === 'compare'))

export function pickCompared(on: boolean): void {
  setWantsPicking(on)
}

export function restoreCompared(ids: readonly string[]): void {
  setCompared([...new Set(ids)].slice(0, mostCompared))
}

/** Takes a series in, or out; a thirteenth is not taken. */
export function toggleCompared(id: string): void {
  setCompared((now) =>
    now.includes(id) ? now.filter((one) => one !== id) : now.length < mostCompared ? [...now, id] : now,
  )
}

/** Changes the first two, of which the first is drawn up against the second. */
export function swapCompared(): void {
  setCompared(([first, second, ...rest]) => [second, first, ...rest].filter((one) => one !== undefined))
}

/** Puts a series second: the first is drawn against it. The first itself changes places with it. */
export function drawAgainst(id: string): void {
  if (compared()[0] === id) swapCompared()
  else
    setCompared(([first, ...rest]) => [
      ...(first === undefined ? [] : [first]),
      id,
      ...rest.filter((one) => one !== id),
    ])
}

/** Puts a series first: all others are held against it. */
export function leadCompared(id: string): void {
  setCompared((now) => (now.includes(id) ? [id, ...now.filter((one) => one !== id)] : now))
}
