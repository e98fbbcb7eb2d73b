import { stepOfCode } from '../../../api/access/one-time-codes.ts'
import { openSealed } from '../../../api/access/sealed-secret.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { signingInRows } from './rows.ts'

const step = ({ secret, code, atEpochS }: PublishedInputs) =>
  stepOfCode(Buffer.from(secret), code, atEpochS * 1000)

export const signingIn: PublishedTable = {
  area: 'signing in',
  rows: signingInRows,
  computed: {
    'SI-01': step,
    'SI-02': step,
    'SI-03': step,
    'SI-04': step,
    'SI-05': step,
    'SI-06': step,
    'SI-07': ({ key, nonce, ciphertext, tag }) =>
      openSealed(
        Buffer.from(key, 'hex'),
        Buffer.from(nonce + ciphertext + tag, 'hex').toString('base64url'),
        '',
      ).toString('hex'),
  },
}
