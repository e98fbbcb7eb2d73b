import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import { knownBySql } from '#domain/receipt/known-by.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { readingsSql } from './expose-readings.ts'
import type {
  FrozenSetVerbs,
  KeptFrozenSet,
  LaterReadings,
  LaterRecord,
  SiteProgressMark,
} from './frozen-set-verbs.ts'
import { canonicalJson } from './model-records.ts'
import type { Numbering } from './numbering.ts'
import { queryRows, timestampLiteral } from './query-rows.ts'

/** Frozen data sets as rows: only ever added. */
export function createFrozenSets(file: DuckdbFile, numbering: Numbering): FrozenSetVerbs {
  return {
    async markOf(slug) {
      const site = (await numbering.findSite(slug)) ?? 0
      const [mark] = await queryRows<SiteProgressMark>(
        file.reader,
        `SELECT
           (SELECT coalesce(max(revision), 0) FROM change WHERE site = $site) AS revision,
           (SELECT coalesce(max(revision), 0) FROM change WHERE site = $site AND batch IS NULL) AS "recordsRevision",
           (SELECT coalesce(max(number), 0) FROM batch WHERE site = $site) AS batch,
           (SELECT coalesce(max(number), 0) FROM audit) AS "auditNumber",
           (SELECT coalesce(max(number), 0) FROM alert_event WHERE site = $site) AS "alertEvent"`,
        { site },
      )
      return mark as SiteProgressMark
    },

    async firstReceiptEpochMs(slug) {
      const site = (await numbering.findSite(slug)) ?? 0
      const [row] = await queryRows<{ first: number | null }>(
        file.reader,
        'SELECT epoch_us(min(received_at)) AS first FROM reading WHERE site = $site',
        { site },
      )
      return row?.first == null ? null : row.first / 1000
    },

    async addFrozenSet(set, mark, { author, account = null, reason, atEpochMs }) {
      const site = await numbering.siteNumber(set.site)
      return file.transact(async (connection) => {
        const known = await queryRows(
          connection,
          'SELECT 1 FROM frozen_set WHERE site = $site AND id = $id',
          {
            site,
            id: set.id,
          },
        )
        if (known.length > 0) return false
        const at = Math.round(atEpochMs)
        await connection.run(
          'INSERT INTO frozen_set VALUES ($site, $id, epoch_ms($cutOff::BIGINT), epoch_ms($at::BIGINT), $body, $mark)',
          {
            site,
            id: set.id,
            cutOff: set.cutOffEpochMs,
            at,
            body: canonicalJson(set),
            mark: canonicalJson(mark),
          },
        )
        const { parts, ...said } = set
        const after = canonicalJson({ ...said, parts: parts.length, mark })
        await file.audit.append(connection, [
          {
            site: set.site,
            atEpochMs: at,
            account,
            name: author,
            action: 'made',
            subjectKind: 'frozen-set',
            subjectKey: set.id,
            version: null,
            before: null,
            after,
            why: reason,
          },
        ])
        return true
      })
    },

    async listFrozenSets(slug) {
      const site = await numbering.findSite(slug)
      if (site === null) return []
      const rows = await queryRows<{ body: string; mark: string }>(
        file.reader,
        'SELECT body, mark FROM frozen_set WHERE site = $site ORDER BY cut_off DESC, "at" DESC, id',
        { site },
      )
      return rows.map(
        ({ body, mark }): KeptFrozenSet => ({
          set: JSON.parse(body) as FrozenSet,
          mark: JSON.parse(mark) as SiteProgressMark,
        }),
      )
    },

    async listLaterReadings(slug, { receivedUntilEpochMs, throughBatch }, takenBeforeEpochMs, clocks) {
      const site = (await numbering.findSite(slug)) ?? 0
      const readings = readingsSql('reading', site, {
        untilEpochMs: takenBeforeEpochMs,
        ...(clocks ? { clocks } : {}),
      })
      return queryRows<LaterReadings>(
        file.reader,
        `SELECT channel, epoch_ms(date_trunc('day', "at")) AS "atEpochMs", count(*) AS count,
           max(epoch_us(received_at)) / 1000 AS "lastReceivedEpochMs"
         FROM (${readings})
         WHERE (NOT ${knownBySql('received_at', timestampLiteral(receivedUntilEpochMs * 1000))} OR batch > ${throughBatch})
         GROUP BY channel, 2 ORDER BY channel, 2`,
      )
    },

    async listLaterRecords(slug, afterAuditNumber) {
      const site = (await numbering.findSite(slug)) ?? 0
      const rows = await queryRows<
        Omit<LaterRecord, 'body' | 'before'> & { body: string | null; before: string | null }
      >(
        file.reader,
        `SELECT r.kind, r.key, r.version, epoch_ms(a."at") AS "atEpochMs", r.author, r.reason,
           r.body::VARCHAR AS body, b.body::VARCHAR AS before
         FROM audit a
         JOIN record r ON r.site = $site AND r.kind = a.subject_kind AND r.key = a.subject_key AND r.version = a.version
         LEFT JOIN record b ON b.site = $site AND b.kind = r.kind AND b.key = r.key AND b.version = r.version - 1
         WHERE a.site = $slug AND a.number > $after AND a.version IS NOT NULL
         ORDER BY a.number`,
        { site, slug, after: afterAuditNumber },
      )
      return rows.map(({ body, before, ...row }) => ({ ...row, body: parsed(body), before: parsed(before) }))
    },
  }
}

/** Bodies of tables are objects; an order of keys is a list and tells nothing here. */
const parsed = (body: string | null): Readonly<Record<string, unknown>> | null => {
  const value: unknown = body === null ? null : JSON.parse(body)
  return value !== null && typeof value === 'object' && !Array.isArray(value)
    ? (value as Readonly<Record<string, unknown>>)
    : null
}
