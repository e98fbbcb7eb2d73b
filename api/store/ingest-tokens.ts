import type { IngestToken } from '#domain/access/access-keys.ts'
import type { AccessKeyVerbs } from './access-key-verbs.ts'
import { appendAccountEntry } from './account-entries.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { queryRows } from './query-rows.ts'

type IngestTokenVerbs = Pick<
  AccessKeyVerbs,
  'addIngestToken' | 'findIngestToken' | 'listIngestTokens' | 'usedIngestToken' | 'revokeIngestToken'
>

/** Tokens with which programs add readings, each at one site. */
export function createIngestTokens(file: DuckdbFile): IngestTokenVerbs {
  return {
    async addIngestToken({ id, sha256, site, name, maker, createdAtEpochMs }) {
      await file.transact(async (connection) => {
        await connection.run(
          `INSERT INTO ingest_token VALUES ($id, $sha256, $site, $name, $maker, epoch_ms($created::BIGINT), NULL, NULL)`,
          { id, sha256, site, name, maker, created: Math.round(createdAtEpochMs) },
        )
        await appendAccountEntry(file, connection, {
          account: maker,
          atEpochMs: createdAtEpochMs,
          site,
          action: 'made',
          subjectKind: 'ingest-token',
          subjectKey: id,
          after: { name },
        })
      })
    },

    async findIngestToken(sha256) {
      const [row] = await queryRows<IngestToken>(
        file.reader,
        `SELECT ${columns} FROM ingest_token WHERE sha256 = $sha256`,
        { sha256 },
      )
      return row ?? null
    },

    listIngestTokens: (site) =>
      queryRows<IngestToken>(
        file.reader,
        `SELECT ${columns} FROM ingest_token WHERE site = $site ORDER BY created_at DESC, id`,
        { site },
      ),

    async usedIngestToken(id, atEpochMs) {
      await file.transact((connection) =>
        connection.run('UPDATE ingest_token SET last_used_at = epoch_ms($at::BIGINT) WHERE id = $id', {
          id,
          at: Math.round(atEpochMs),
        }),
      )
    },

    revokeIngestToken: (site, id, atEpochMs, by) =>
      file.transact(async (connection) => {
        const [token] = await queryRows<{ maker: string; name: string; revoked: boolean }>(
          connection,
          `SELECT maker, name, revoked_at IS NOT NULL AS revoked FROM ingest_token WHERE id = $id AND site = $site`,
          { site, id },
        )
        if (token === undefined || token.revoked) return token !== undefined
        await connection.run('UPDATE ingest_token SET revoked_at = epoch_ms($at::BIGINT) WHERE id = $id', {
          id,
          at: Math.round(atEpochMs),
        })
        await appendAccountEntry(file, connection, {
          account: token.maker,
          by,
          atEpochMs,
          site,
          action: 'withdrawn',
          subjectKind: 'ingest-token',
          subjectKey: id,
          after: { name: token.name },
        })
        return true
      }),
  }
}

const columns = `id, sha256, site, name, maker, epoch_ms(created_at) AS "createdAtEpochMs",
  epoch_ms(last_used_at) AS "lastUsedAtEpochMs", epoch_ms(revoked_at) AS "revokedAtEpochMs"`
