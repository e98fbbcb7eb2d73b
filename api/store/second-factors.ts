import type { SecondFactor } from '#domain/access/access-keys.ts'
import type { AccessKeyVerbs } from './access-key-verbs.ts'
import { appendAccountEntry } from './account-entries.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { queryRows } from './query-rows.ts'

type SecondFactorVerbs = Pick<
  AccessKeyVerbs,
  | 'findSecondFactor'
  | 'beginSecondFactor'
  | 'confirmSecondFactor'
  | 'useStep'
  | 'useRecoveryCode'
  | 'countRecoveryCodes'
  | 'removeSecondFactor'
>

/** One-time codes and recovery codes of accounts; each counts once, however many requests bring it at a time. */
export function createSecondFactors(file: DuckdbFile): SecondFactorVerbs {
  return {
    async findSecondFactor(account) {
      const [row] = await queryRows<SecondFactor>(
        file.reader,
        `SELECT account, sealed, epoch_ms(begun_at) AS "begunAtEpochMs",
           epoch_ms(confirmed_at) AS "confirmedAtEpochMs", last_step AS "lastStep"
         FROM second_factor WHERE account = $account`,
        { account },
      )
      return row ?? null
    },

    beginSecondFactor: (account, sealed, atEpochMs) =>
      file.transact(async (connection) => {
        const confirmed = await queryRows(
          connection,
          'SELECT account FROM second_factor WHERE account = $account AND confirmed_at IS NOT NULL',
          { account },
        )
        if (confirmed.length > 0) return 'spent'
        await connection.run(
          'INSERT OR REPLACE INTO second_factor VALUES ($account, $sealed, epoch_ms($at::BIGINT), NULL, -1)',
          { account, sealed, at: Math.round(atEpochMs) },
        )
        return 'accepted'
      }),

    confirmSecondFactor: (account, step, recoverySha256s, atEpochMs) =>
      file.transact(async (connection) => {
        const confirmed = await queryRows(
          connection,
          `UPDATE second_factor SET confirmed_at = epoch_ms($at::BIGINT), last_step = $step::BIGINT
           WHERE account = $account AND confirmed_at IS NULL RETURNING account`,
          { account, step, at: Math.round(atEpochMs) },
        )
        if (confirmed.length === 0) return 'spent'
        for (const sha256 of recoverySha256s)
          await connection.run('INSERT INTO recovery_code VALUES ($account, $sha256, NULL)', {
            account,
            sha256,
          })
        await appendAccountEntry(file, connection, {
          ...ofFactor(account),
          atEpochMs,
          action: 'made',
          after: { recoveryCodes: recoverySha256s.length },
        })
        return 'accepted'
      }),

    useStep: (account, step) =>
      file.transact(async (connection) => {
        const counted = await queryRows(
          connection,
          `UPDATE second_factor SET last_step = $step::BIGINT
           WHERE account = $account AND confirmed_at IS NOT NULL AND last_step < $step::BIGINT RETURNING account`,
          { account, step },
        )
        return counted.length > 0 ? 'accepted' : 'spent'
      }),

    useRecoveryCode: (account, sha256, atEpochMs) =>
      file.transact(async (connection) => {
        const counted = await queryRows(
          connection,
          `UPDATE recovery_code SET used_at = epoch_ms($at::BIGINT)
           WHERE account = $account AND sha256 = $sha256 AND used_at IS NULL RETURNING account`,
          { account, sha256, at: Math.round(atEpochMs) },
        )
        if (counted.length === 0) return 'spent'
        await appendAccountEntry(file, connection, {
          account,
          atEpochMs,
          action: 'used',
          subjectKind: 'recovery-code',
          subjectKey: '',
        })
        return 'accepted'
      }),

    async countRecoveryCodes(account) {
      const [row] = await queryRows<{ codes: number }>(
        file.reader,
        'SELECT count(*) AS codes FROM recovery_code WHERE account = $account AND used_at IS NULL',
        { account },
      )
      return row?.codes ?? 0
    },

    async removeSecondFactor(account, by) {
      await file.transact(async (connection) => {
        await connection.run('DELETE FROM recovery_code WHERE account = $account', { account })
        const removed = await connection.run('DELETE FROM second_factor WHERE account = $account', {
          account,
        })
        if (removed.rowsChanged > 0)
          await appendAccountEntry(file, connection, { ...ofFactor(account), by, action: 'withdrawn' })
      })
    },
  }
}

const ofFactor = (account: string) => ({ account, subjectKind: 'second-factor', subjectKey: '' })
