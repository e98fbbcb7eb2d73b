import type { DuckDBConnection } from '@duckdb/node-api'
import type { PasswordLink } from '#domain/access/access-keys.ts'
import type { AccessKeyVerbs } from './access-key-verbs.ts'
import { appendAccountEntry } from './account-entries.ts'
import { type AccountRow, accountColumns, accountOf } from './accounts.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { queryRows } from './query-rows.ts'

type PasswordVerbs = Pick<
  AccessKeyVerbs,
  'setPassword' | 'addPasswordLink' | 'findPasswordLink' | 'usePasswordLink'
>

/** Other passwords for accounts, and the links by which people set them. */
export function createPasswords(file: DuckdbFile): PasswordVerbs {
  return {
    setPassword: (account, passwordHash, atEpochMs, keepSession) =>
      file.transact((connection) =>
        replacePassword(file, connection, account, passwordHash, atEpochMs, keepSession),
      ),

    async addPasswordLink({ sha256, account, expiresAtEpochMs }, by) {
      await file.transact(async (connection) => {
        await connection.run(
          'INSERT INTO password_link VALUES ($sha256, $account, epoch_ms($expires::BIGINT), NULL, $maker)',
          { sha256, account, expires: Math.round(expiresAtEpochMs), maker: by?.account ?? null },
        )
        await appendAccountEntry(file, connection, {
          account,
          by,
          action: 'made',
          subjectKind: 'password-link',
          subjectKey: '',
          after: { expiresAtEpochMs },
        })
      })
    },

    async findPasswordLink(sha256) {
      const [row] = await queryRows<AccountRow & PasswordLink>(
        file.reader,
        `SELECT ${accountColumns}, l.sha256, l.account, epoch_ms(l.expires_at) AS "expiresAtEpochMs",
           epoch_ms(l.used_at) AS "usedAtEpochMs", l.maker
         FROM password_link l JOIN account a ON a.id = l.account WHERE l.sha256 = $sha256`,
        { sha256 },
      )
      if (!row) return null
      const { account, expiresAtEpochMs, usedAtEpochMs, maker } = row
      return { link: { sha256, account, expiresAtEpochMs, usedAtEpochMs, maker }, account: accountOf(row) }
    },

    usePasswordLink: (sha256, passwordHash, atEpochMs) =>
      file.transact(async (connection) => {
        const at = Math.round(atEpochMs)
        const [link] = await queryRows<{ account: string }>(
          connection,
          `SELECT account FROM password_link
           WHERE sha256 = $sha256 AND used_at IS NULL AND expires_at > epoch_ms($at::BIGINT)`,
          { sha256, at },
        )
        if (!link) return 'spent'
        await replacePassword(file, connection, link.account, passwordHash, at, null)
        return 'accepted'
      }),
  }
}

async function replacePassword(
  file: DuckdbFile,
  connection: DuckDBConnection,
  account: string,
  passwordHash: string,
  atEpochMs: number,
  keepSession: string | null,
): Promise<void> {
  const at = Math.round(atEpochMs)
  await connection.run('UPDATE account SET password_hash = $passwordHash WHERE id = $account', {
    account,
    passwordHash,
  })
  const { rowsChanged: sessionsEnded } = await connection.run(
    `UPDATE session SET ended_at = epoch_ms($at::BIGINT)
     WHERE account = $account AND ended_at IS NULL AND id <> $keep`,
    { account, at, keep: keepSession ?? '' },
  )
  await connection.run(
    'UPDATE password_link SET used_at = epoch_ms($at::BIGINT) WHERE account = $account AND used_at IS NULL',
    { account, at },
  )
  await appendAccountEntry(file, connection, {
    account,
    atEpochMs,
    action: 'changed',
    subjectKind: 'password',
    subjectKey: '',
    after: { sessionsEnded },
  })
}
