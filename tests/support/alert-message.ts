import type { AlertMessage, Recipient } from '../../api/alerts/delivery/delivery-way.ts'

/** A message as an alert of the small site would make it. */
export const raisedMessage: AlertMessage = {
  id: 'msg-1',
  site: 'small-quay',
  siteName: 'Small Quay',
  alert: 'a-17',
  exercise: false,
  late: false,
  kind: 'raised',
  subject: 'Level 2 passed at PZ-04',
  text: 'PZ-04 reads 41.2 kPa; Level 2 is 40 kPa. Follow the response plan.',
  path: '/?site=small-quay&alert=a-17',
  atEpochMs: Date.UTC(2027, 9, 21, 3),
  facts: { point: 'PZ-04', value: 41.2, level: 40 },
}

/** Somebody who is reached by nothing yet. */
export const nobody: Recipient = { id: 'r1', name: 'Ada Marsh', email: null, account: null, webhooks: [] }
