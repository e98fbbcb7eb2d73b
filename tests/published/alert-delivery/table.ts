import { signaturesOf } from '../../../api/alerts/delivery/webhook-signature.ts'
import { openPush } from '../../support/open-push.ts'
import type { PublishedTable } from '../published-row.ts'
import { alertDeliveryRows } from './rows.ts'

export const alertDelivery: PublishedTable = {
  area: 'alert-delivery',
  rows: alertDeliveryRows,
  computed: {
    'AD-01': ({ secret, id, atEpochSeconds, body }) => signaturesOf([secret], id, atEpochSeconds, body),
    'AD-02': ({ secret, id, atEpochSeconds, body }) => signaturesOf([secret], id, atEpochSeconds, body),
    'AD-03': ({ privateKey, auth, body }) => openPush(Buffer.from(body, 'base64url'), { privateKey, auth }),
  },
}
