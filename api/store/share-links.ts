import type { ShareLink } from '#domain/access/access-keys.ts'
import type { AccessKeyVerbs } from './access-key-verbs.ts'
import { appendAccountEntry } from './account-entries.ts'
import { type AccountRow, accountColumns, accountOf } from './accounts.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { queryRows } from './query-rows.ts'

type ShareLinkVerbs = Pick<
  AccessKeyVerbs,
  'addShareLink' | 'findShareLink' | 'listShareLinks' | 'usedShareLink' | 'revokeShareLink'
>

/** Links that let whoever has one read a site for a while. */
export function createShareLinks(file: DuckdbFile): ShareLinkVerbs {
  return {
    async addShareLink({ id, sha256, site, maker, createdAtEpochMs, expiresAtEpochMs }) {
      await file.transact(async (connection) => {
        await connection.run(
          `INSERT INTO share_link VALUES ($id, $sha256, $site, $maker, epoch_ms($created::BIGINT),
             epoch_ms($expires::BIGINT), NULL, NULL)`,
          {
            id,
            sha256,
            site,
            maker,
            created: Math.round(createdAtEpochMs),
            expires: Math.round(expiresAtEpochMs),
          },
        )
        await appendAccountEntry(file, connection, {
          account: maker,
          atEpochMs: createdAtEpochMs,
          site,
          action: 'made',
          subjectKind: 'share-link',
          subjectKey: id,
          after: { expiresAtEpochMs },
        })
      })
    },

    async findShareLink(sha256) {
      const [row] = await queryRows<AccountRow & ShareLinkRow>(
        file.reader,
        `SELECT ${columns}, ${accountColumns} FROM share_link l JOIN account a ON a.id = l.maker
         WHERE l.sha256 = $sha256`,
        { sha256 },
      )
      return row ? { link: linkOf(row), maker: accountOf(row) } : null
    },

    async listShareLinks(site) {
      const rows = await queryRows<ShareLinkRow>(
        file.reader,
        `SELECT ${columns} FROM share_link l WHERE l.site = $site ORDER BY l.created_at DESC, l.id`,
        { site },
      )
      return rows.map(linkOf)
    },

    async usedShareLink(id, atEpochMs) {
      await file.transact((connection) =>
        connection.run('UPDATE share_link SET last_used_at = epoch_ms($at::BIGINT) WHERE id = $id', {
          id,
          at: Math.round(atEpochMs),
        }),
      )
    },

    revokeShareLink: (site, id, atEpochMs, by) =>
      file.transact(async (connection) => {
        const [link] = await queryRows<{ maker: string; revoked: boolean }>(
          connection,
          `SELECT maker, revoked_at IS NOT NULL AS revoked FROM share_link WHERE id = $id AND site = $site`,
          { site, id },
        )
        if (link === undefined || link.revoked) return link !== undefined
        await connection.run('UPDATE share_link SET revoked_at = epoch_ms($at::BIGINT) WHERE id = $id', {
          id,
          at: Math.round(atEpochMs),
        })
        await appendAccountEntry(file, connection, {
          account: link.maker,
          by,
          atEpochMs,
          site,
          action: 'withdrawn',
          subjectKind: 'share-link',
          subjectKey: id,
        })
        return true
      }),
  }
}

/** Under names of their own where an account in the same row has such a column too. */
type ShareLinkRow = Omit<ShareLink, 'id' | 'createdAtEpochMs'> & {
  readonly link: string
  readonly madeAtEpochMs: number
}

const columns = `l.id AS link, l.sha256, l.site, l.maker, epoch_ms(l.created_at) AS "madeAtEpochMs",
  epoch_ms(l.expires_at) AS "expiresAtEpochMs", epoch_ms(l.last_used_at) AS "lastUsedAtEpochMs",
  epoch_ms(l.revoked_at) AS "revokedAtEpochMs"`

const linkOf = (row: ShareLinkRow): ShareLink => ({
  id: row.link,
  sha256: row.sha256,
  site: row.site,
  maker: row.maker,
  createdAtEpochMs: row.madeAtEpochMs,
  expiresAtEpochMs: row.expiresAtEpochMs,
  lastUsedAtEpochMs: row.lastUsedAtEpochMs,
  revokedAtEpochMs: row.revokedAtEpochMs,
})
