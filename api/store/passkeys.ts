import type { Passkey } from '#domain/access/access-keys.ts'
import type { AccessKeyVerbs } from './access-key-verbs.ts'
import { appendAccountEntry } from './account-entries.ts'
import { type AccountRow, accountColumns, accountOf } from './accounts.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { queryRows } from './query-rows.ts'

type PasskeyVerbs = Pick<
  AccessKeyVerbs,
  'addPasskey' | 'findPasskey' | 'listPasskeys' | 'usedPasskey' | 'namePasskey' | 'removePasskey'
>

/** Public keys by which devices sign in for people. */
export function createPasskeys(file: DuckdbFile): PasskeyVerbs {
  return {
    addPasskey: ({ id, account, name, host, publicKey, counter, createdAtEpochMs }) =>
      file.transact(async (connection) => {
        const there = await queryRows(connection, 'SELECT id FROM passkey WHERE id = $id', { id })
        if (there.length > 0) return false
        await connection.run(
          `INSERT INTO passkey VALUES ($id, $account, $name, $host, $publicKey, $counter::BIGINT,
             epoch_ms($created::BIGINT), NULL)`,
          { id, account, name, host, publicKey, counter, created: Math.round(createdAtEpochMs) },
        )
        await appendAccountEntry(file, connection, {
          ...ofPasskey(account),
          atEpochMs: createdAtEpochMs,
          action: 'made',
          after: { name, host },
        })
        return true
      }),

    async findPasskey(id) {
      const [row] = await queryRows<AccountRow & PasskeyRow>(
        file.reader,
        `SELECT ${passkeyColumns}, ${accountColumns} FROM passkey p JOIN account a ON a.id = p.account WHERE p.id = $id`,
        { id },
      )
      return row ? { passkey: passkeyOf(row), account: accountOf(row) } : null
    },

    async listPasskeys(account) {
      const rows = await queryRows<PasskeyRow>(
        file.reader,
        `SELECT ${passkeyColumns} FROM passkey p WHERE p.account = $account ORDER BY p.created_at, p.id`,
        { account },
      )
      return rows.map(passkeyOf)
    },

    async usedPasskey(id, counter, atEpochMs) {
      await file.transact((connection) =>
        connection.run(
          'UPDATE passkey SET counter = $counter::BIGINT, last_used_at = epoch_ms($at::BIGINT) WHERE id = $id',
          { id, counter, at: Math.round(atEpochMs) },
        ),
      )
    },

    namePasskey: (account, id, name) =>
      file.transact(async (connection) => {
        const rows = await queryRows(
          connection,
          'UPDATE passkey SET name = $name WHERE id = $id AND account = $account RETURNING id',
          { account, id, name },
        )
        if (rows.length === 0) return false
        await appendAccountEntry(file, connection, {
          ...ofPasskey(account),
          action: 'changed',
          after: { name },
        })
        return true
      }),

    removePasskey: (account, id) =>
      file.transact(async (connection) => {
        const [removed] = await queryRows<{ name: string; host: string }>(
          connection,
          'DELETE FROM passkey WHERE id = $id AND account = $account RETURNING name, host',
          { account, id },
        )
        if (removed === undefined) return false
        const { name, host } = removed
        await appendAccountEntry(file, connection, {
          ...ofPasskey(account),
          action: 'withdrawn',
          after: { name, host },
        })
        return true
      }),
  }
}

/** By its name and not its id: that is for the device and the server. */
const ofPasskey = (account: string) => ({ account, subjectKind: 'passkey', subjectKey: '' })

/** Under names of their own where an account in the same row has such a column too. */
type PasskeyRow = Omit<Passkey, 'id' | 'name' | 'createdAtEpochMs'> & {
  readonly passkey: string
  readonly called: string
  readonly addedAtEpochMs: number
}

const passkeyColumns = `p.id AS passkey, p.account, p.name AS called, p.host, p.public_key AS "publicKey", p.counter,
  epoch_ms(p.created_at) AS "addedAtEpochMs", epoch_ms(p.last_used_at) AS "lastUsedAtEpochMs"`

const passkeyOf = (row: PasskeyRow): Passkey => ({
  id: row.passkey,
  account: row.account,
  name: row.called,
  host: row.host,
  publicKey: row.publicKey,
  counter: row.counter,
  createdAtEpochMs: row.addedAtEpochMs,
  lastUsedAtEpochMs: row.lastUsedAtEpochMs,
})
