import type { DuckDBConnection } from '@duckdb/node-api'
import { type AuditEntry, type ChainHead, chainStart } from '#domain/audit/audit-entry.ts'
import { type ChainBreak, checkChain, explainBreak } from '#domain/audit/check-chain.ts'
import type { AuditVerification } from '#domain/audit/verification.ts'
import { auditSubject, breakFromHead, headBreak, isHeadNoted } from './audit-openings.ts'
import { selectEntries } from './audit-rows.ts'
import { findRecordFaults, recordsWithoutEntry } from './audited-records.ts'
import { findStepFaults } from './audited-steps.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { queryRows, type SqlValue } from './query-rows.ts'
import { sha256 } from './sha256.ts'
import type { Store } from './store.ts'

/** Entries read at a time while the chain is worked out. */
const chunk = 10_000
const worthLooking = 1000
const mostFaults = 20

/** Reads and checks the audit record; what is written to it comes from the verbs that change something. */
export function createAudit(
  file: DuckdbFile,
): Pick<Store, 'recordAudit' | 'listAudit' | 'listAuditChoices' | 'verifyAudit'> {
  const { reader } = file
  return {
    recordAudit: (entries) => file.transact((connection) => file.audit.append(connection, entries)),

    async listAudit({ site, subjectKind, subjectKeys = [], name, before, limit }) {
      const narrowing: (readonly [string, string, SqlValue | undefined])[] = [
        ['site = $site', 'site', site ?? undefined],
        ['subject_kind = $subjectKind', 'subjectKind', subjectKind],
        [
          `subject_key IN (SELECT unnest(from_json($subjectKeys, '["VARCHAR"]')))`,
          'subjectKeys',
          subjectKeys.length === 0 ? undefined : JSON.stringify(subjectKeys),
        ],
        ['name = $name', 'name', name],
        ['number < $before', 'before', before],
      ]
      const wanted = narrowing.filter(([, , value]) => value !== undefined)
      const where = [site === null ? 'site IS NULL' : 'true', ...wanted.map(([sql]) => sql)].join(' AND ')
      const values = Object.fromEntries(wanted.map(([, column, value]) => [column, value ?? null]))
      return (await selectEntries(reader, where, values, { newestFirst: true, limit })).map(
        ({ entry }) => entry,
      )
    },

    async listAuditChoices(site) {
      const where = site === null ? 'site IS NULL' : 'site = $site'
      const [kinds, names] = await Promise.all(
        ['subject_kind', 'name'].map(async (column) => {
          const rows = await queryRows<{ word: string }>(
            reader,
            `SELECT DISTINCT ${column} AS word FROM audit WHERE ${where} ORDER BY word`,
            site === null ? {} : { site },
          )
          return rows.map(({ word }) => word)
        }),
      )
      return { kinds: kinds ?? [], names: names ?? [] }
    },

    async verifyAudit(noted) {
      // Before the chain: it may grow meanwhile, and its end must not lie before what was noted.
      await file.audit.noteEnd()
      const isNoted = isHeadNoted(file.path)
      const { head, firstBreak } = await walkChain(reader)
      const { compared, count, faults } = await findRecordFaults(reader, mostFaults)
      const steps = await findStepFaults(reader, mostFaults)
      const [began] = await selectEntries(reader, 'number = 1', {}, { newestFirst: false, limit: 1 })
      const before = await recordsWithoutEntry(reader)
      const strangers = began === undefined ? null : strangersAmong(before, began.entry)
      const mismatches = await selectEntries(
        reader,
        `subject_kind = '${auditSubject}' AND action = 'mismatch'`,
        {},
        { newestFirst: false, limit: mostFaults },
      )
      return {
        entries: await countEntries(reader),
        head,
        firstBreak:
          firstBreak ??
          (await headBreak(file.path, reader, head)) ??
          (noted ? await breakFromHead(reader, head, noted) : null),
        recordFaults: [...faults, ...(strangers ? [strangers] : []), ...steps.faults].slice(
          0,
          mostFaults + 1,
        ),
        recordFaultCount: count + (strangers === null ? 0 : 1) + steps.count,
        recordsCompared: compared,
        recordsBefore: before.records,
        notices: [
          ...(isNoted || head.number === 0
            ? []
            : [
                'Where the record ends was not noted outside the data file: an end that was cut off would not be noticed.',
              ]),
          ...mismatches.map(({ entry }) => `Entry ${entry.number}, at an earlier start: ${entry.why}`),
        ],
      } satisfies AuditVerification
    },
  }
}

/** From the first entry to the last, or to where it breaks. */
async function walkChain(
  connection: DuckDBConnection,
): Promise<{ readonly head: ChainHead; readonly firstBreak: ChainBreak | null }> {
  let head = chainStart
  for (;;) {
    const entries = await entriesAfter(connection, head.number, chunk)
    const { fits, head: end } = checkChain(entries, head, sha256)
    head = end
    if (fits < entries.length) {
      const rest = entries.slice(fits, fits + worthLooking)
      const last = entries.at(-1)?.entry.number ?? 0
      const more = await entriesAfter(connection, last, worthLooking - rest.length)
      return { head, firstBreak: explainBreak([...rest, ...more], head, sha256) }
    }
    if (entries.length < chunk) return { head, firstBreak: await findStray(connection, head) }
  }
}

const entriesAfter = (connection: DuckDBConnection, number: number, limit: number) =>
  selectEntries(connection, 'number > $number', { number }, { newestFirst: false, limit })

/** A number that is there twice between two of the pieces that were read, or lies before the first; null: there is none. */
async function findStray(connection: DuckDBConnection, head: ChainHead): Promise<ChainBreak | null> {
  const [stray] = await queryRows<{ number: number }>(
    connection,
    `SELECT number FROM audit WHERE number <= $last GROUP BY number HAVING count(*) > 1 OR number < 1 ORDER BY number LIMIT 1`,
    { last: head.number },
  )
  if (stray === undefined) return null
  const sentence = `Number ${stray.number} is there again: an entry was put in that does not belong to the record.`
  return { kind: 'inserted', number: stray.number, sentence }
}

/** Record versions without an entry that were not there when the record began; null: there are none. */
function strangersAmong(found: { readonly records: number; readonly sha256: string }, began: AuditEntry) {
  const known = readBeginning(began.after)
  if (known === null || known.sha256 === found.sha256) return null
  const more = found.records - known.records
  return {
    site: '',
    kind: '',
    key: '',
    version: 0,
    sentence:
      more > 0
        ? `${more} record version${more === 1 ? '' : 's'} stand${more === 1 ? 's' : ''} in the data file without an entry: put in beside the record.`
        : 'Record versions from before the audit record began are not as they were then: altered or taken out.',
  }
}

function readBeginning(after: string | null): { readonly records: number; readonly sha256: string } | null {
  try {
    const { records, sha256 } = JSON.parse(after ?? 'null') ?? {}
    return typeof records === 'number' && typeof sha256 === 'string' ? { records, sha256 } : null
  } catch {
    return null
  }
}

async function countEntries(connection: DuckDBConnection): Promise<number> {
  const [row] = await queryRows<{ count: number }>(connection, 'SELECT count(*) AS count FROM audit')
  return row?.count ?? 0
}
