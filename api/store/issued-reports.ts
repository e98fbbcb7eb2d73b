import type { DuckDBConnection } from '@duckdb/node-api'
import type { IssuedReport } from '#domain/report/report.ts'
import { audited } from './audited-records.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { canonicalJson } from './model-records.ts'
import type { Numbering } from './numbering.ts'
import { queryRows } from './query-rows.ts'
import type { Store } from './store.ts'

type ReportVerbs = Pick<Store, 'addReport' | 'listReports'>

/** Reports that were given out: only ever added. */
export function createIssuedReports(file: DuckdbFile, numbering: Numbering): ReportVerbs {
  return {
    async addReport(slug, { manifest, files }, { author, account = null, reason, atEpochMs }) {
      const site = await numbering.siteNumber(slug)
      return file.transact(async (connection) => {
        const known = await readReports(connection, site)
        const ofKind = known.filter((one) => one.manifest.kind === manifest.kind)
        // Before anything is written: a number is never left out and never given twice.
        if (manifest.number !== ofKind.length + 1 || manifest.previousNumber !== (ofKind.length || null))
          throw new ReportNumberTaken(manifest.kind, ofKind.length + 1)
        const issued: IssuedReport = {
          id: known.length + 1,
          manifest,
          files,
          issuedBy: author,
          issuedAtEpochMs: Math.round(atEpochMs),
        }
        const body = canonicalJson({ manifest, files })
        await connection.run(
          `INSERT INTO report VALUES ($site, $id, $kind, $number, epoch_ms($at::BIGINT), $author, $account, $body)`,
          {
            site,
            id: issued.id,
            kind: manifest.kind,
            number: manifest.number,
            at: issued.issuedAtEpochMs,
            author,
            account,
            body,
          },
        )
        await file.audit.append(connection, [
          {
            site: slug,
            atEpochMs,
            account,
            name: author,
            action: 'made',
            subjectKind: 'report',
            subjectKey: canonicalJson([manifest.kind, String(manifest.number)]),
            version: null,
            before: null,
            after: audited(body),
            why: reason,
          },
        ])
        return issued
      })
    },

    async listReports(slug) {
      const site = await numbering.findSite(slug)
      return site === null ? [] : readReports(file.reader, site)
    },
  }
}

/** Another report of this kind was issued meanwhile; nothing was written. */
export class ReportNumberTaken extends Error {
  override name = 'ReportNumberTaken'
  readonly next: number

  constructor(kind: string, next: number) {
    super(`the next ${kind} report has number ${next}`)
    this.next = next
  }
}

async function readReports(connection: DuckDBConnection, site: number): Promise<readonly IssuedReport[]> {
  const rows = await queryRows<{ id: number; atEpochMs: number; author: string; body: string }>(
    connection,
    `SELECT id, epoch_ms("at") AS "atEpochMs", author, body FROM report WHERE site = $site ORDER BY id`,
    { site },
  )
  return rows.map(({ id, atEpochMs, author, body }) => ({
    id,
    ...(JSON.parse(body) as Pick<IssuedReport, 'manifest' | 'files'>),
    issuedBy: author,
    issuedAtEpochMs: atEpochMs,
  }))
}
