import type { PushSubscription } from '#domain/alerts/push-subscription.ts'
import type { AuditAction, AuditDraft } from '#domain/audit/audit-entry.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { canonicalJson } from './model-records.ts'
import { queryRows } from './query-rows.ts'
import type { Signature, Store } from './store.ts'

type PushVerbs = Pick<Store, 'putPushSubscription' | 'listPushSubscriptions' | 'removePushSubscription'>

/** Devices that their owners asked to be told on. */
export function createPushSubscriptions(file: DuckdbFile): PushVerbs {
  return {
    async putPushSubscription(subscription, name) {
      const { id, account, session, device, endpoint, p256dh, auth, madeAtEpochMs } = subscription
      await file.transact(async (connection) => {
        const earlier = await queryRows<{ id: string; account: string }>(
          connection,
          'DELETE FROM push_subscription WHERE endpoint = $endpoint RETURNING id, account',
          { endpoint },
        )
        await connection.run(
          `INSERT INTO push_subscription VALUES
             ($id, $account, $session, $device, $endpoint, $p256dh, $auth, epoch_ms($at::BIGINT))`,
          { id, account, session, device, endpoint, p256dh, auth, at: Math.round(madeAtEpochMs) },
        )
        if (earlier.some((one) => one.account === account)) return
        const signature = { author: name, account, reason: '', atEpochMs: madeAtEpochMs }
        const reason = 'Somebody else asked to be told on this device.'
        await file.audit.append(connection, [
          ...earlier.map((one) => entry(one.id, 'withdrawn', { ...signature, reason })),
          { ...entry(id, 'made', signature), after: canonicalJson({ device }) },
        ])
      })
    },

    listPushSubscriptions: (account) =>
      queryRows<PushSubscription>(
        file.reader,
        `SELECT p.id, p.account, p.session, p.device, p.endpoint, p.p256dh, p.auth,
           epoch_ms(p.made_at) AS "madeAtEpochMs"
         FROM push_subscription p JOIN session s ON s.id = p.session JOIN account a ON a.id = p.account
         WHERE p.account = $account AND s.account = p.account AND s.ended_at IS NULL AND a.disabled_at IS NULL
         ORDER BY p.made_at, p.id`,
        { account },
      ),

    removePushSubscription: (account, id, signature) =>
      file.transact(async (connection) => {
        const removed = await connection.run(
          'DELETE FROM push_subscription WHERE account = $account AND id = $id',
          { account, id },
        )
        if (removed.rowsChanged === 0) return false
        await file.audit.append(connection, [entry(id, 'withdrawn', signature)])
        return true
      }),
  }
}

const entry = (
  subjectKey: string,
  action: AuditAction,
  { author, account = null, reason, atEpochMs }: Signature,
): AuditDraft => ({
  site: null,
  atEpochMs,
  account,
  name: author,
  action,
  subjectKind: 'push-device',
  subjectKey,
  version: null,
  before: null,
  after: null,
  why: reason,
})
