import { createSignal } from 'solid-js'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import { isOnWall } from './on-wall.ts'

const [frozenSetId, setFrozenSetId] = createSignal<string | null>(null)
const [frozenSet, setFrozenSet] = createSignal<FrozenSet | null>(null)

export {
  /** What the frozen data set says of itself; null: the page reads the present, or it has not arrived yet. */
  frozenSet,
  /** The frozen data set that the whole page reads from; null: from what the server holds now. */
  frozenSetId,
}

/** Whether nothing of a site may be asked but from a frozen set; on the wall from before it is known which. */
export const isFrozen = (): boolean => frozenSetId() !== null || isOnWall()

/** Nothing received later is shown; null: the page reads the present, or it is not known yet. */
export const cutOffEpochMs = (): number | null => (isFrozen() ? (frozenSet()?.cutOffEpochMs ?? null) : null)

/**
 * Lets the page read from a frozen set, from before anything of a site is asked. It holds for the life of the page: going
 * back to the present, or to another set, is another page, so that nothing of one can stand in the other.
 */
export function readFromFrozen(set: string): void {
  setFrozenSetId(set)
}

export function showFrozenSet(set: FrozenSet): void {
  if (set.id === frozenSetId()) setFrozenSet(set)
}

/** For tests, where one page stands for many. */
export function readFromPresent(): void {
  setFrozenSetId(null)
  setFrozenSet(null)
}

const frozenDocuments: ReadonlyMap<string, string> = new Map([
  ['', '/site'],
  ['/state', '/state'],
  ['/alerts', '/alerts'],
  ['/network', '/network'],
  ['/slices', '/slices'],
])

/** Where a part of a site's API lies while the page reads from a frozen set: its five documents in the set, all else as ever. */
export function partInFrozen(part: string): string {
  const set = frozenSetId()
  const within = frozenDocuments.get(part)
  return set === null || within === undefined ? part : `/frozen/${encodeURIComponent(set)}${within}`
}

/** Of a site: frozen sets, and records of meetings and reports, which say themselves what they are of. */
const leaksNothing = /^\/api\/sites\/[^/]+\/(frozen|meetings|minutes|reports)(\/|\?|$)/

/** Whether a path could bring what was received after the cut-off. Nothing of the kind is asked while the page is frozen. */
export function isBeyondFrozen(path: string): boolean {
  if (!isFrozen()) return false
  return path.startsWith('/api/audit') || (path.startsWith('/api/sites/') && !leaksNothing.test(path))
}

/** What stands where something would have to be asked that is not in the set. */
export const notInFrozenSentence = 'This is not part of the frozen data. Go back to present data to see it.'
