import { standingEntries } from '#domain/field/standing-entries.ts'
import type { KnownEntry } from '../../../state/field-work.ts'

/** Installations as they stand, the latest record of each; more than one where two people recorded apart. */
export function standingInstallations(known: readonly KnownEntry[]) {
  const byId = new Map(known.map((one) => [one.entry.id, one]))
  return standingEntries(known.map(({ entry }) => entry)).flatMap(({ entries, disputed }) =>
    entries.flatMap((entry) => {
      const one = byId.get(entry.id)
      return entry.body.kind === 'installation' && one ? [{ written: one, disputed }] : []
    }),
  )
}
