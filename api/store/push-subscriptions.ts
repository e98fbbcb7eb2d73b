import type { PushSubscription } from '#domain/alerts/push-subscription.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { queryRows } from './query-rows.ts'
import type { Store } from './store.ts'

type PushVerbs = Pick<Store, 'putPushSubscription' | 'listPushSubscriptions' | 'removePushSubscription'>

/** Devices that their owners asked to be told on. */
export function createPushSubscriptions(file: DuckdbFile): PushVerbs {
  return {
    async putPushSubscription({ id, account, session, device, endpoint, p256dh, auth, madeAtEpochMs }) {
      await file.transact(async (connection) => {
        await connection.run('DELETE FROM push_subscription WHERE endpoint = $endpoint', { endpoint })
        await connection.run(
          `INSERT INTO push_subscription VALUES
             ($id, $account, $session, $device, $endpoint, $p256dh, $auth, epoch_ms($at::BIGINT))`,
          { id, account, session, device, endpoint, p256dh, auth, at: Math.round(madeAtEpochMs) },
        )
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

    async removePushSubscription(account, id) {
      await file.transact((connection) =>
        connection.run('DELETE FROM push_subscription WHERE account = $account AND id = $id', {
          account,
          id,
        }),
      )
    },
  }
}
