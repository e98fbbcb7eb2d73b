import type { DuckDBConnection } from '@duckdb/node-api'
import type { Decision, Kept } from '#domain/proposals/proposal.ts'
import {
  type ProposalKind,
  type ProposalsByKind,
  subjectOfProposal,
} from '#domain/proposals/proposal-kinds.ts'
import { audited } from './audited-records.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { canonicalJson } from './model-records.ts'
import type { Numbering } from './numbering.ts'
import type { ProposalVerbs } from './proposal-verbs.ts'
import { queryRows } from './query-rows.ts'

/** Proposals and what became of them: only ever added, the two tables of each kind alike. */
export function createDecidedProposals(
  file: DuckdbFile,
  numbering: Numbering,
): Omit<ProposalVerbs, 'approveProposal'> {
  return {
    async addProposal(slug, kind, { author, account, atEpochMs, ...proposed }) {
      const site = await numbering.siteNumber(slug)
      return file.transact(async (connection) => {
        const [row] = await queryRows<{ number: number }>(
          connection,
          `SELECT coalesce(max(number), 0) + 1 AS number FROM ${kind}_proposal WHERE site = $site`,
          { site },
        )
        const number = row?.number ?? 1
        const body = canonicalJson(proposed)
        await connection.run(
          `INSERT INTO ${kind}_proposal VALUES ($site, $number, epoch_ms($at::BIGINT), $author, $account, $body)`,
          { site, number, at: Math.round(atEpochMs), author, account, body },
        )
        const [after, why] = [audited(body), proposed.reason]
        await file.audit.append(connection, [
          { ...subject(slug, kind, number), atEpochMs, account, name: author, action: 'made', after, why },
        ])
        return number
      })
    },

    async closeProposal(slug, kind, number, decision) {
      const site = await numbering.siteNumber(slug)
      await file.transact((connection) =>
        decideProposal(file, connection, { slug, site }, kind, number, decision),
      )
    },

    async listProposals(slug, kind) {
      const site = await numbering.findSite(slug)
      return site === null ? [] : readProposals(file.reader, site, kind)
    },
  }
}

/** A proposal was decided already, or there is none of that number; what was to be done with it was not. */
export class ProposalDecided extends Error {
  override name = 'ProposalDecided'
}

/** Records what became of a proposal inside the transaction that carries it out. */
export async function decideProposal(
  file: DuckdbFile,
  connection: DuckDBConnection,
  { slug, site }: { readonly slug: string; readonly site: number },
  kind: ProposalKind,
  proposal: number,
  decision: Decision,
): Promise<void> {
  const { by, account, reason, atEpochMs } = decision
  const waiting = (await readProposals(connection, site, kind)).some(
    ({ number, decision }) => number === proposal && decision === null,
  )
  if (!waiting) throw new ProposalDecided(`${kind} proposal ${proposal} does not wait for a decision`)
  await connection.run(
    `INSERT INTO ${kind}_decision VALUES ($site, $proposal, epoch_ms($at::BIGINT), $decided, $by, $account, $reason)`,
    { site, proposal, at: Math.round(atEpochMs), decided: decision.kind, by, account, reason },
  )
  const action = decision.kind === 'rejected' ? 'refused' : decision.kind
  await file.audit.append(connection, [
    { ...subject(slug, kind, proposal), atEpochMs, account, name: by, action, after: null, why: reason },
  ])
}

const subject = (site: string, kind: ProposalKind, number: number) => ({
  site,
  subjectKind: subjectOfProposal(kind),
  subjectKey: String(number),
  version: null,
  before: null,
})

async function readProposals<K extends ProposalKind>(
  connection: DuckDBConnection,
  site: number,
  kind: K,
): Promise<readonly Kept<ProposalsByKind[K]>[]> {
  const rows = await queryRows<{
    number: number
    atEpochMs: number
    author: string
    account: string | null
    body: string
    decided: Decision['kind'] | null
    by: string
    decidedBy: string | null
    reason: string
    decidedAtEpochMs: number
  }>(
    connection,
    `SELECT p.number, epoch_ms(p."at") AS "atEpochMs", p.author, p.account, p.body,
       d.kind AS decided, d."by", d.account AS "decidedBy", d.reason, epoch_ms(d."at") AS "decidedAtEpochMs"
     FROM ${kind}_proposal p LEFT JOIN ${kind}_decision d ON d.site = p.site AND d.proposal = p.number
     WHERE p.site = $site ORDER BY p.number`,
    { site },
  )
  return rows.map(
    ({ number, atEpochMs, author, account, body, decided, by, decidedBy, reason, decidedAtEpochMs }) =>
      ({
        number,
        atEpochMs,
        author,
        account,
        ...JSON.parse(body),
        decision:
          decided === null
            ? null
            : { kind: decided, by, account: decidedBy, reason, atEpochMs: decidedAtEpochMs },
      }) as Kept<ProposalsByKind[K]>,
  )
}
