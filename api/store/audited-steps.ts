import type { DuckDBConnection } from '@duckdb/node-api'
import { thisServer } from '#domain/audit/audit-entry.ts'
import type { RecordFault } from '#domain/audit/verification.ts'
import { type ProposalKind, proposalKinds, subjectOfProposal } from '#domain/proposals/proposal-kinds.ts'
import { sameBody } from './audited-records.ts'
import { queryRows } from './query-rows.ts'

const stepsOfProposals = (kind: ProposalKind): string => `
  UNION ALL
  SELECT s.slug, '${subjectOfProposal(kind)}', p.number::VARCHAR, 1, p.author, p.account, epoch_ms(p."at"), p.body
  FROM ${kind}_proposal p JOIN site s ON s.number = p.site
  UNION ALL
  SELECT s.slug, '${subjectOfProposal(kind)}', d.proposal::VARCHAR, 2, d."by", d.account, epoch_ms(d."at"), d.kind || ': ' || d.reason
  FROM ${kind}_decision d JOIN site s ON s.number = d.site`

/** What became of alerts and of proposals, in steps, and frozen sets and reports, in one: these have no versions in the table of records. */
const keptSteps = `
  SELECT s.slug AS site, 'alert' AS kind, e.alert::VARCHAR AS key,
    row_number() OVER (PARTITION BY e.site, e.alert ORDER BY e.number) AS step,
    coalesce(e."by", '${thisServer}') AS name, NULL::VARCHAR AS account, NULL::BIGINT AS at, e.body
  FROM alert_event e JOIN site s ON s.number = e.site
  ${proposalKinds.map(stepsOfProposals).join('')}
  UNION ALL
  SELECT s.slug, 'frozen-set', f.id, 1, json_extract_string(f.body, '$.frozenBy'), NULL, epoch_ms(f."at"),
    json_merge_patch(f.body, json_object('parts', json_array_length(f.body, '$.parts'), 'mark', f.mark::JSON))::VARCHAR
  FROM frozen_set f JOIN site s ON s.number = f.site
  UNION ALL
  SELECT s.slug, 'report', '["' || r.kind || '","' || r.number || '"]', 1, r.author, r.account, epoch_ms(r."at"), r.body
  FROM report r JOIN site s ON s.number = r.site`

// An alert's entry has the instant at which the server wrote it, which is another where the present is invented. An entry
// of a frozen set has how many parts it has in their place: which they are is told by its id, a hash of them.
const stepEntries = `
  SELECT number, site, subject_kind AS kind, subject_key AS key,
    row_number() OVER (PARTITION BY site, subject_kind, subject_key ORDER BY number) AS step, name,
    CASE WHEN subject_kind IN ('alert', 'frozen-set') THEN NULL ELSE account END AS account,
    CASE subject_kind WHEN 'alert' THEN NULL ELSE epoch_ms("at") END AS at,
    CASE WHEN subject_kind = 'frozen-set'
        THEN json_merge_patch("after", json_object('parts', json_extract("after", '$.parts'), 'mark', json_extract("after", '$.mark')))::VARCHAR
      WHEN subject_kind = 'alert' OR action = 'made' THEN "after"
      ELSE CASE action WHEN 'refused' THEN 'rejected' ELSE action END || ': ' || why END AS body
  FROM audit WHERE subject_kind IN ('alert', 'frozen-set', 'report', ${proposalKinds.map((kind) => `'${subjectOfProposal(kind)}'`).join()})`

/**
 * Steps of alerts, of proposals and of reports that are not as their entries say, whose entry is missing, or that are
 * gone: who took an alert up and who approved a level are not for a hand in the data file to say.
 */
export async function findStepFaults(
  connection: DuckDBConnection,
  most: number,
): Promise<{ readonly count: number; readonly faults: readonly RecordFault[] }> {
  const rows = await queryRows<Omit<RecordFault, 'sentence' | 'version'> & FoundStep>(
    connection,
    `WITH held AS (
       SELECT site, kind, key, step, a.number, k.name IS NULL AS gone,
         k.name IS NOT DISTINCT FROM a.name AND k.account IS NOT DISTINCT FROM a.account
           AND k.at IS NOT DISTINCT FROM a.at AND ${sameBody('k.body', 'a.body')} AS same
       FROM (${keptSteps}) k FULL JOIN (${stepEntries}) a USING (site, kind, key, step))
     SELECT *, count(*) OVER () AS count FROM held WHERE gone OR number IS NULL OR NOT same
     ORDER BY number NULLS LAST, site, kind, key, step LIMIT ${most}`,
  )
  return {
    count: rows[0]?.count ?? 0,
    faults: rows.map(({ site, kind, key, step, gone, number }) => ({
      site,
      kind,
      key,
      version: step,
      sentence: `Step ${step} of ${kind.replace('-', ' ')} ${key} at ${site} ${found(gone, number)}`,
    })),
  }
}

interface FoundStep {
  readonly step: number
  /** Null: no entry speaks of it. */
  readonly number: number | null
  readonly gone: boolean
  readonly count: number
}

function found(gone: boolean, number: number | null): string {
  if (number === null) return 'stands in the data file without an entry: put in beside the record.'
  return gone
    ? `is gone; entry ${number} says what it was.`
    : `is not as entry ${number} says: who it was, when or what was altered.`
}
