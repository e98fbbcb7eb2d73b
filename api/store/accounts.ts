import type { DuckDBConnection } from '@duckdb/node-api'
import type { Account, Invitation } from '#domain/access/account.ts'
import type { Membership } from '#domain/access/membership.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { canonicalJson } from './model-records.ts'
import { queryRows } from './query-rows.ts'
import type { Signature, Store } from './store.ts'

type AccountVerbs = Pick<
  Store,
  | 'hasAccounts'
  | 'listAccounts'
  | 'findSignIn'
  | 'addInvitation'
  | 'findInvitation'
  | 'redeemInvitation'
  | 'setMembership'
  | 'disableAccount'
>

/** Who may sign in, and what each may do where. */
export function createAccounts(file: DuckdbFile): AccountVerbs {
  return {
    async hasAccounts() {
      const rows = await queryRows(file.reader, 'SELECT id FROM account LIMIT 1')
      return rows.length > 0
    },

    async listAccounts() {
      const rows = await queryRows<AccountRow>(
        file.reader,
        `SELECT ${accountColumns} FROM account a ORDER BY name`,
      )
      return rows.map(accountOf)
    },

    async findSignIn(signInName) {
      const [row] = await queryRows<AccountRow & { passwordHash: string }>(
        file.reader,
        `SELECT ${accountColumns}, password_hash AS "passwordHash" FROM account a WHERE sign_in_name = $signInName`,
        { signInName },
      )
      return row ? { account: accountOf(row), passwordHash: row.passwordHash } : null
    },

    async addInvitation({ sha256, site, role, expiresAtEpochMs }, signature) {
      await file.transact(async (connection) => {
        await connection.run(
          'INSERT INTO invitation VALUES ($sha256, $site, $role, epoch_ms($expires::BIGINT), NULL, $maker)',
          { sha256, site, role, expires: Math.round(expiresAtEpochMs), maker: signature.account ?? null },
        )
        // Not its hash: whoever reads the audit record is to know nothing of the link.
        const after = canonicalJson({ site, role, expiresAtEpochMs })
        await file.audit.append(connection, [
          { ...signedBy(signature, 'invitation', ''), action: 'made', after },
        ])
      })
    },

    findInvitation: (sha256) => readInvitation(file.reader, sha256),

    redeemInvitation: (sha256, { id, name, signInName, passwordHash }, atEpochMs) =>
      file.transact(async (connection) => {
        const invitation = await readInvitation(connection, sha256)
        if (!invitation || invitation.usedAtEpochMs !== null || invitation.expiresAtEpochMs <= atEpochMs)
          return 'spent'
        const others = await queryRows(
          connection,
          'SELECT id FROM account WHERE sign_in_name = $signInName OR lower(name) = lower($name)',
          { signInName, name },
        )
        if (others.length > 0) return 'name-taken'
        const at = Math.round(atEpochMs)
        await connection.run(
          'INSERT INTO account VALUES ($id, $name, $signInName, $passwordHash, epoch_ms($at::BIGINT), NULL)',
          { id, name, signInName, passwordHash, at },
        )
        await connection.run('INSERT INTO membership VALUES ($id, $site, $role)', {
          id,
          site: invitation.site,
          role: invitation.role,
        })
        await connection.run('UPDATE invitation SET used_at = epoch_ms($at::BIGINT) WHERE sha256 = $sha256', {
          at,
          sha256,
        })
        // Each start before the first account printed a link for an administrator; one is enough.
        await connection.run(
          `UPDATE invitation SET used_at = epoch_ms($at::BIGINT)
           WHERE maker IS NULL AND used_at IS NULL AND (SELECT count(*) FROM account) = 1`,
          { at },
        )
        const { site, role } = invitation
        const own = { author: name, account: id, reason: 'By an invitation, which is used up.', atEpochMs }
        const after = canonicalJson({ name, signInName, memberships: [{ site, role }] })
        await file.audit.append(connection, [{ ...signedBy(own, 'account', id), action: 'made', after }])
        return 'accepted'
      }),

    async setMembership(account, site, role, signature) {
      await file.transact(async (connection) => {
        const [known] = await queryRows<{ role: string }>(
          connection,
          'SELECT role FROM membership WHERE account = $account AND site = $site',
          { account, site },
        )
        if ((known?.role ?? null) === role) return
        const name = await nameOfAccount(connection, account)
        if (role === null)
          await connection.run('DELETE FROM membership WHERE account = $account AND site = $site', {
            account,
            site,
          })
        else
          await connection.run('INSERT OR REPLACE INTO membership VALUES ($account, $site, $role)', {
            account,
            site,
            role,
          })
        await file.audit.append(connection, [
          {
            ...signedBy(signature, 'account', account),
            action: role === null ? 'withdrawn' : 'given',
            before: known ? canonicalJson({ name, site, role: known.role }) : null,
            after: role === null ? null : canonicalJson({ name, site, role }),
          },
        ])
      })
    },

    async disableAccount(account, atEpochMs, signature) {
      const at = atEpochMs === null ? null : Math.round(atEpochMs)
      await file.transact(async (connection) => {
        await connection.run('UPDATE account SET disabled_at = epoch_ms($at::BIGINT) WHERE id = $account', {
          account,
          at,
        })
        const ended =
          at === null
            ? 0
            : (
                await connection.run(
                  `UPDATE session SET ended_at = epoch_ms($at::BIGINT) WHERE account = $account AND ended_at IS NULL`,
                  { account, at },
                )
              ).rowsChanged
        await file.audit.append(connection, [
          {
            ...signedBy(signature, 'account', account),
            action: at === null ? 'enabled' : 'disabled',
            after: canonicalJson({
              name: await nameOfAccount(connection, account),
              ...(at === null ? {} : { sessionsEnded: ended }),
            }),
          },
        ])
      })
    },
  }
}

/** Its id where there is no such account. */
export async function nameOfAccount(connection: DuckDBConnection, account: string): Promise<string> {
  const [row] = await queryRows<{ name: string }>(
    connection,
    'SELECT name FROM account WHERE id = $account',
    {
      account,
    },
  )
  return row?.name ?? account
}

const signedBy = (
  { author, account = null, reason, atEpochMs }: Signature,
  subjectKind: string,
  subjectKey: string,
) => ({
  site: null,
  atEpochMs,
  account,
  name: author,
  subjectKind,
  subjectKey,
  version: null,
  before: null,
  why: reason,
})

export interface AccountRow extends Omit<Account, 'memberships'> {
  /** JSON. */
  readonly memberships: string
}

/** What an account is, of a table `a`. */
export const accountColumns = `a.id, a.name, a.sign_in_name AS "signInName",
  epoch_ms(a.created_at) AS "createdAtEpochMs", epoch_ms(a.disabled_at) AS "disabledAtEpochMs",
  (SELECT coalesce(to_json(list({site: m.site, role: m.role} ORDER BY m.site)), '[]')::VARCHAR
   FROM membership m WHERE m.account = a.id) AS memberships`

export const accountOf = (row: AccountRow): Account => ({
  id: row.id,
  name: row.name,
  signInName: row.signInName,
  createdAtEpochMs: row.createdAtEpochMs,
  disabledAtEpochMs: row.disabledAtEpochMs,
  memberships: JSON.parse(row.memberships) as Membership[],
})

async function readInvitation(connection: DuckDBConnection, sha256: string): Promise<Invitation | null> {
  const [row] = await queryRows<Invitation>(
    connection,
    `SELECT sha256, site, role, epoch_ms(expires_at) AS "expiresAtEpochMs", epoch_ms(used_at) AS "usedAtEpochMs",
       maker
     FROM invitation WHERE sha256 = $sha256`,
    { sha256 },
  )
  return row ?? null
}
