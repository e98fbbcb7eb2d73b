/** What can become of a subject. Closed: who reads the record filters by these words, and a page has a sentence for each. */
export const auditActions = [
  'began',
  'made',
  'changed',
  'withdrawn',
  'taken',
  'refused',
  'replaced',
  'given',
  'disabled',
  'enabled',
  'signed-in',
  'ended',
  'used',
  'approved',
  'raised',
  'delivered',
  'failed',
  'escalated',
  'acknowledged',
  'verified',
  'closed',
  'reopened',
  'suppressed',
  'shown',
  'mismatch',
] as const
export type AuditAction = (typeof auditActions)[number]

/** Who did something: an account and the name it had, a name alone where nobody signs in, or `thisServer`. */
export interface Actor {
  /** Id of the account; null where there was none. */
  readonly account: string | null
  readonly name: string
}

/** Name of what the server does by itself; no person signs so. */
export const thisServer = 'this server'

/** One thing that changed, as it is to be recorded. */
export interface AuditDraft extends Actor {
  /** Id of the site; null: of the server, such as an account. */
  readonly site: string | null
  /** When the server did it, not when somebody wrote it down. */
  readonly atEpochMs: number
  readonly action: AuditAction
  /** Kind of a record (a table's name, `layout`, `works` …) or of a state: `batch`, `account`, `session`, `alert` … */
  readonly subjectKind: string
  /** Key within the kind; empty where there is only one. */
  readonly subjectKey: string
  /** Which version of a kept record it made; null for what has no versions in the table of records. */
  readonly version: number | null
  /** Canonical JSON text of what stood before and after; null: nothing. Never a secret, nor the hash of one. */
  readonly before: string | null
  readonly after: string | null
  /** In the words of whoever did it; empty where none were asked for. */
  readonly why: string
}

/** An entry of the audit record: its number counts from 1 without a gap, over all sites. */
export interface AuditEntry extends AuditDraft {
  readonly number: number
}

/** Where a chain of entries ends: the last number and its hash, hex. */
export interface ChainHead {
  readonly number: number
  readonly hash: string
}

/** An entry and the hash that was kept with it. */
export interface ChainedEntry {
  readonly entry: AuditEntry
  readonly hash: string
}

/** SHA-256 of a text's UTF-8 bytes (FIPS 180-4), 64 hex digits in lower case. */
export type Sha256 = (text: string) => string

/** Before the first entry. */
export const chainStart: ChainHead = { number: 0, hash: '0'.repeat(64) }

/**
 * The one text of an entry: JSON with its names in alphabetical order and no white space, as RFC 8785 has it. `before`
 * and `after` are strings in it, so that it can be made without reading them.
 */
export function canonicalEntry(entry: AuditEntry): string {
  const { account, action, after, atEpochMs, before, name } = entry
  const { number, site, subjectKey, subjectKind, version, why } = entry
  return JSON.stringify({
    account,
    action,
    after,
    atEpochMs,
    before,
    name,
    number,
    site,
    subjectKey,
    subjectKind,
    version,
    why,
  })
}

/** Hash of an entry: SHA-256 of the previous entry's 64 hex digits followed by the entry's canonical text. */
export const chainHash = (previousHash: string, entry: AuditEntry, sha256: Sha256): string =>
  sha256(previousHash + canonicalEntry(entry))
