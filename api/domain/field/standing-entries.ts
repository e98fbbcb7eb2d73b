import { groupBy } from '../group-by.ts'
import { entrySubject } from './entry-subject.ts'
import type { FieldEntry } from './field-entry.ts'

type Written = Pick<FieldEntry, 'id' | 'follows' | 'body'>

/** What stands on one subject. More than one entry: people wrote without knowing of each other. */
export interface Standing<E extends Written> {
  readonly subject: string
  /** Entries that no other follows, in the order given; a resolution stands for the entry that it chose. */
  readonly entries: readonly E[]
  readonly disputed: boolean
}

/**
 * What stands on every subject, in order of first mention. Does not depend on the order in which entries arrive,
 * but for the order of those that stand side by side. An entry that follows one not yet here stands meanwhile.
 */
export function standingEntries<E extends Written>(entries: readonly E[]): readonly Standing<E>[] {
  const known = new Map(entries.map((entry) => [entry.id, entry]))
  const followed = new Set(entries.flatMap((entry) => entry.follows.filter((id) => id !== entry.id)))
  return [...groupBy(entries, entrySubject)].map(([subject, written]) => {
    const heads = written.filter(({ id }) => !followed.has(id))
    const standing = heads.map((head) => chosenBy(head, known))
    return { subject, entries: standing, disputed: heads.length > 1 }
  })
}

function chosenBy<E extends Written>(head: E, known: ReadonlyMap<string, E>): E {
  const seen = new Set<string>()
  let entry = head
  while (entry.body.kind === 'resolution' && !seen.has(entry.id)) {
    seen.add(entry.id)
    entry = known.get(entry.body.chosen) ?? entry
  }
  return entry
}

/** Ids that a new entry on a subject follows: all that stand on it now, disputed or not. */
export function latestIds(entries: readonly Written[], subject: string): readonly string[] {
  const followed = new Set(entries.flatMap(({ id, follows }) => follows.filter((one) => one !== id)))
  return entries
    .filter((entry) => entrySubject(entry) === subject && !followed.has(entry.id))
    .map(({ id }) => id)
}
