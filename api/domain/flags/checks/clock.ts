import type { Check } from '../check.ts'

/**
 * Seconds from stamp to receipt. Nothing is received before it is taken: a negative one shows a clock that runs ahead.
 * A clock that runs behind looks like slow delivery and cannot be told from it by this alone.
 */
export const clock: Check = {
  measured: ({ receivedAfterSeconds }) => receivedAfterSeconds,
  measuredSql: 'received_after_s::double',
  unit: 's',
  says: 'the time from its stamp to its receipt is',
  looksBelow: true,
  greatestLimit: null,
}
