import type { Account, Session } from '#domain/access/account.ts'
import { accountColumns, accountOf, nameOfAccount } from './accounts.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { canonicalJson } from './model-records.ts'
import { queryRows } from './query-rows.ts'
import type { Store } from './store.ts'

type SessionVerbs = Pick<Store, 'addSession' | 'findSession' | 'sawSession' | 'endSession' | 'listSessions'>

/** The devices on which people signed in. */
export function createSessions(file: DuckdbFile): SessionVerbs {
  return {
    async addSession({ id, sha256, account, device, createdAtEpochMs, expiresAtEpochMs }) {
      await file.transact(async (connection) => {
        await connection.run(
          `INSERT INTO session VALUES ($id, $sha256, $account, $device, epoch_ms($created::BIGINT),
             epoch_ms($created::BIGINT), epoch_ms($expires::BIGINT), NULL)`,
          {
            id,
            sha256,
            account,
            device,
            created: Math.round(createdAtEpochMs),
            expires: Math.round(expiresAtEpochMs),
          },
        )
        await file.audit.append(connection, [
          {
            ...ofSession(id),
            atEpochMs: createdAtEpochMs,
            account,
            name: await nameOfAccount(connection, account),
            action: 'signed-in',
            after: canonicalJson({ device, expiresAtEpochMs }),
          },
        ])
      })
    },

    async findSession(sha256) {
      const [row] = await queryRows<SessionRow & AccountPart>(
        file.reader,
        `SELECT ${sessionColumns}, ${accountColumns}
         FROM session s JOIN account a ON a.id = s.account WHERE s.sha256 = $sha256`,
        { sha256 },
      )
      return row ? { session: sessionOf(row), account: accountOf(row) } : null
    },

    async sawSession(id, atEpochMs) {
      await file.transact((connection) =>
        connection.run('UPDATE session SET last_seen_at = epoch_ms($at::BIGINT) WHERE id = $id', {
          id,
          at: Math.round(atEpochMs),
        }),
      )
    },

    async endSession(id, atEpochMs, by) {
      await file.transact(async (connection) => {
        const [ended] = await queryRows<{ account: string }>(
          connection,
          `UPDATE session SET ended_at = epoch_ms($at::BIGINT) WHERE id = $id AND ended_at IS NULL RETURNING account`,
          { id, at: Math.round(atEpochMs) },
        )
        if (ended === undefined) return
        const { account } = ended
        const owner = await nameOfAccount(connection, account)
        await file.audit.append(connection, [
          {
            ...ofSession(id),
            ...(by ?? { account, name: owner }),
            atEpochMs,
            action: 'ended',
            after: canonicalJson({ account, name: owner }),
          },
        ])
      })
    },

    async listSessions(account) {
      const rows = await queryRows<SessionRow>(
        file.reader,
        `SELECT ${sessionColumns} FROM session s
         WHERE s.account = $account AND s.ended_at IS NULL ORDER BY s.created_at DESC, s.id`,
        { account },
      )
      return rows.map(sessionOf)
    },
  }
}

const ofSession = (id: string) => ({
  site: null,
  subjectKind: 'session',
  subjectKey: id,
  version: null,
  before: null,
  why: '',
})

type AccountPart = Omit<Account, 'memberships'> & { readonly memberships: string }
/** Id and begin under names of their own: an account in the same row has them too. */
type SessionRow = Omit<Session, 'id' | 'createdAtEpochMs'> & {
  readonly session: string
  readonly begunAtEpochMs: number
}

const sessionColumns = `s.id AS session, s.sha256, s.account, s.device, epoch_ms(s.created_at) AS "begunAtEpochMs",
  epoch_ms(s.last_seen_at) AS "lastSeenAtEpochMs", epoch_ms(s.expires_at) AS "expiresAtEpochMs",
  epoch_ms(s.ended_at) AS "endedAtEpochMs"`

const sessionOf = (row: SessionRow): Session => ({
  id: row.session,
  sha256: row.sha256,
  account: row.account,
  device: row.device,
  createdAtEpochMs: row.begunAtEpochMs,
  lastSeenAtEpochMs: row.lastSeenAtEpochMs,
  expiresAtEpochMs: row.expiresAtEpochMs,
  endedAtEpochMs: row.endedAtEpochMs,
})
