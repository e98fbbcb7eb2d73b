import type { Issue } from '../outcome.ts'
import type { InstallationBody } from './field-bodies.ts'
import type { FieldEntry } from './field-entry.ts'
import { installationFaults } from './installation-faults.ts'
import type { KnownSite } from './known-site.ts'

export interface InstallationStanding {
  readonly status: 'recorded' | 'commissioned'
  /** What is still missing; empty for what is commissioned. */
  readonly missing: readonly Issue[]
  readonly checkedBy: string | null
}

/** An entry with the account that delivered it; null, or left out, where there are no accounts. */
export type Delivered<E> = E & { readonly sender?: string | null }

/**
 * Whether an installation as recorded is commissioned: nothing is missing, and a second person has checked this very
 * record and agreed: by another name, and where there are accounts from another account too, since a name is only typed.
 * A later record of the same instrument needs a check of its own. Held against the site as it was
 * before: one that has become records is not judged again.
 */
export function installationStanding(
  entry: Delivered<Pick<FieldEntry, 'id' | 'author'>> & { readonly body: InstallationBody },
  entries: readonly Delivered<Pick<FieldEntry, 'author' | 'body'>>[],
  site: KnownSite,
): InstallationStanding {
  const faults = installationFaults(entry.body, site)
  const checks = entries.flatMap(({ author, sender = null, body }) =>
    body.kind === 'second-check' && body.entry === entry.id ? [{ author, sender, body }] : [],
  )
  const objection = checks.find(({ body }) => !body.agreed)
  const byName = checks.filter(
    ({ author, body }) => body.agreed && sameName(author) !== sameName(entry.author),
  )
  const second = byName.find(({ sender }) => sender === null || sender !== (entry.sender ?? null))
  const missing = [...faults]
  if (objection)
    missing.push({
      code: 'check-not-agreed',
      column: 'secondCheck',
      message: `${objection.author} did not agree: ${objection.body.found || 'no reason given'}. Record it again, put right.`,
    })
  else if (!second)
    missing.push({
      code: 'check-missing',
      column: 'secondCheck',
      message: byName[0]
        ? `${byName[0].author} is named as the second person, but record and check were both sent by ${byName[0].sender}. The check has to come from the second person’s own account.`
        : 'A second person has not checked it yet. Whoever recorded it cannot check it.',
    })
  return missing.length === 0
    ? { status: 'commissioned', missing: [], checkedBy: second?.author ?? null }
    : { status: 'recorded', missing, checkedBy: second?.author ?? null }
}

const sameName = (name: string) => name.trim().toLowerCase().replace(/\s+/g, ' ')
