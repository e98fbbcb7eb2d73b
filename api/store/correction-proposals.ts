import type { DuckDBConnection } from '@duckdb/node-api'
import type {
  CorrectionDecision,
  CorrectionProposal,
  StoredCorrection,
} from '#domain/corrections/correction-proposal.ts'
import { audited } from './audited-records.ts'
import type { CorrectionVerbs } from './correction-verbs.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { ProposalDecided } from './level-proposals.ts'
import { canonicalJson } from './model-records.ts'
import type { Numbering } from './numbering.ts'
import { queryRows } from './query-rows.ts'

/** Proposals for corrections and what became of them: only ever added. */
export function createCorrectionProposals(
  file: DuckdbFile,
  numbering: Numbering,
): Omit<CorrectionVerbs, 'approveCorrectionProposal'> {
  return {
    async addCorrectionProposal(slug, { author, account, atEpochMs, reason, changes, evidence }) {
      const site = await numbering.siteNumber(slug)
      return file.transact(async (connection) => {
        const [row] = await queryRows<{ number: number }>(
          connection,
          'SELECT coalesce(max(number), 0) + 1 AS number FROM correction_proposal WHERE site = $site',
          { site },
        )
        const number = row?.number ?? 1
        const body = canonicalJson({ reason, changes, evidence })
        await connection.run(
          'INSERT INTO correction_proposal VALUES ($site, $number, epoch_ms($at::BIGINT), $author, $account, $body)',
          { site, number, at: Math.round(atEpochMs), author, account, body },
        )
        const after = audited(body)
        await file.audit.append(connection, [
          { ...subject(slug, number), atEpochMs, account, name: author, action: 'made', after, why: reason },
        ])
        return number
      })
    },

    async closeCorrectionProposal(slug, number, decision) {
      const site = await numbering.siteNumber(slug)
      await file.transact((connection) =>
        decideCorrection(file, connection, { slug, site }, number, decision),
      )
    },

    async listCorrectionProposals(slug) {
      const site = await numbering.findSite(slug)
      return site === null ? [] : readProposals(file.reader, site)
    },
  }
}

/** Records what became of a proposal inside the transaction that carries it out. */
export async function decideCorrection(
  file: DuckdbFile,
  connection: DuckDBConnection,
  { slug, site }: { readonly slug: string; readonly site: number },
  proposal: number,
  decision: CorrectionDecision,
): Promise<void> {
  const { kind, by, account, reason, atEpochMs } = decision
  const waiting = (await readProposals(connection, site)).some(
    ({ number, decision }) => number === proposal && decision === null,
  )
  if (!waiting) throw new ProposalDecided(`correction proposal ${proposal} does not wait for a decision`)
  await connection.run(
    'INSERT INTO correction_decision VALUES ($site, $proposal, epoch_ms($at::BIGINT), $kind, $by, $account, $reason)',
    { site, proposal, at: Math.round(atEpochMs), kind, by, account, reason },
  )
  const action = kind === 'rejected' ? 'refused' : kind
  await file.audit.append(connection, [
    { ...subject(slug, proposal), atEpochMs, account, name: by, action, after: null, why: reason },
  ])
}

const subject = (site: string, number: number) => ({
  site,
  subjectKind: 'correction-proposal',
  subjectKey: String(number),
  version: null,
  before: null,
})

async function readProposals(
  connection: DuckDBConnection,
  site: number,
): Promise<readonly StoredCorrection[]> {
  const rows = await queryRows<{
    number: number
    atEpochMs: number
    author: string
    account: string | null
    body: string
    kind: CorrectionDecision['kind'] | null
    by: string
    decidedBy: string | null
    reason: string
    decidedAtEpochMs: number
  }>(
    connection,
    `SELECT p.number, epoch_ms(p."at") AS "atEpochMs", p.author, p.account, p.body,
       d.kind, d."by", d.account AS "decidedBy", d.reason, epoch_ms(d."at") AS "decidedAtEpochMs"
     FROM correction_proposal p LEFT JOIN correction_decision d ON d.site = p.site AND d.proposal = p.number
     WHERE p.site = $site ORDER BY p.number`,
    { site },
  )
  return rows.map(
    ({ number, atEpochMs, author, account, body, kind, by, decidedBy, reason, decidedAtEpochMs }) => ({
      number,
      atEpochMs,
      author,
      account,
      ...(JSON.parse(body) as Pick<CorrectionProposal, 'reason' | 'changes' | 'evidence'>),
      decision: kind === null ? null : { kind, by, account: decidedBy, reason, atEpochMs: decidedAtEpochMs },
    }),
  )
}
