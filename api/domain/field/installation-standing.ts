import type { Issue } from '../outcome.ts'
import type { InstallationBody } from './field-bodies.ts'
import type { FieldEntry } from './field-entry.ts'
import { installationFaults, type KnownSite } from './installation-faults.ts'

export interface InstallationStanding {
  readonly status: 'recorded' | 'commissioned'
  /** What is still missing; empty for what is commissioned. */
  readonly missing: readonly Issue[]
  readonly checkedBy: string | null
}

/**
 * Whether an installation as recorded is commissioned: nothing is missing, and a second person has checked this very
 * record and agreed. A later record of the same instrument needs a check of its own. Held against the site as it was
 * before: one that has become records is not judged again.
 */
export function installationStanding(
  entry: Pick<FieldEntry, 'id' | 'author'> & { readonly body: InstallationBody },
  entries: readonly Pick<FieldEntry, 'author' | 'body'>[],
  site: KnownSite,
): InstallationStanding {
  const faults = installationFaults(entry.body, site)
  const checks = entries.flatMap(({ author, body }) =>
    body.kind === 'second-check' && body.entry === entry.id ? [{ author, body }] : [],
  )
  const objection = checks.find(({ body }) => !body.agreed)
  const second = checks.find(({ author, body }) => body.agreed && sameName(author) !== sameName(entry.author))
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
      message: 'A second person has not checked it yet. Whoever recorded it cannot check it.',
    })
  return missing.length === 0
    ? { status: 'commissioned', missing: [], checkedBy: second?.author ?? null }
    : { status: 'recorded', missing, checkedBy: second?.author ?? null }
}

const sameName = (name: string) => name.trim().toLowerCase().replace(/\s+/g, ' ')
