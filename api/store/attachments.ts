import { thisServer } from '#domain/audit/audit-entry.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { logFieldChanges } from './field-entries.ts'
import { canonicalJson } from './model-records.ts'
import type { Numbering } from './numbering.ts'
import { queryRows } from './query-rows.ts'
import type { HeldAttachment, Store } from './store.ts'

type AttachmentVerbs = Pick<Store, 'recordAttachment' | 'findAttachments'>

/** Which attachments of field entries a site has the bytes of. */
export function createAttachments(file: DuckdbFile, numbering: Numbering): AttachmentVerbs {
  return {
    async recordAttachment(slug, { sha256, bytes, mediaType, receivedAtEpochMs }) {
      const site = await numbering.siteNumber(slug)
      await file.transact(async (connection) => {
        const added = await connection.run(
          `INSERT INTO attachment VALUES ($site, $sha256, $bytes, $mediaType, epoch_ms($received::BIGINT))
           ON CONFLICT DO NOTHING`,
          { site, sha256, bytes, mediaType, received: Math.round(receivedAtEpochMs) },
        )
        if (added.rowsChanged === 0) return
        await file.audit.append(connection, [
          {
            site: slug,
            atEpochMs: receivedAtEpochMs,
            account: null,
            name: thisServer,
            action: 'taken',
            subjectKind: 'attachment',
            subjectKey: sha256,
            version: null,
            before: null,
            after: canonicalJson({ bytes, mediaType }),
            why: '',
          },
        ])
        const waiting = await queryRows<{ number: number }>(
          connection,
          'SELECT number FROM field_entry WHERE site = $site AND contains(body, $sha256) ORDER BY number',
          { site, sha256 },
        )
        if (waiting.length > 0)
          await logFieldChanges(
            connection,
            site,
            waiting.map(({ number }) => ({ entry: number, effect: null })),
          )
      })
    },

    async findAttachments(slug, sha256s) {
      const site = await numbering.findSite(slug)
      if (site === null) return []
      return queryRows<HeldAttachment>(
        file.reader,
        `SELECT sha256, bytes, media_type AS "mediaType", epoch_ms(received_at) AS "receivedAtEpochMs"
         FROM attachment
         WHERE site = $site AND sha256 IN (SELECT unnest(from_json($sha256s, '["VARCHAR"]')))`,
        { site, sha256s: JSON.stringify(sha256s) },
      )
    },
  }
}
