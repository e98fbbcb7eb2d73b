import { entryAbout } from '#domain/field/entry-about.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'

/** Entries about an instrument, any of its measuring points, or a sensor of one of them, in the order given. */
export function entriesAbout<E extends { readonly entry: Pick<FieldEntry, 'body'> }>(
  instrument: { readonly id: string; readonly points: readonly string[] },
  entries: readonly E[],
): readonly E[] {
  const names = new Set([instrument.id, ...instrument.points])
  return entries.filter(({ entry }) => {
    const about = entryAbout(entry.body)
    return about !== null && names.has(about.split('/')[0] ?? '')
  })
}
