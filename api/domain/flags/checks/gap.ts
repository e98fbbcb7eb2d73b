import type { Check } from '../check.ts'

/** Minutes without a value before the reading. */
export const gap: Check = {
  measured: ({ atEpochMs, beforeEpochMs, dueSinceEpochMs }) =>
    (atEpochMs - (beforeEpochMs ?? dueSinceEpochMs)) / 60_000,
  measuredSql: '(at_us - coalesce(before_us, due_since_us))::double / 60000000.0::double',
  unit: 'min',
  says: 'the time without a value before it is',
  looksBelow: false,
  greatestLimit: 1440,
}
