import type { Check } from '../check.ts'

/** Size of the change since the reading before, by the hour between them. */
export const rateOfChange: Check = {
  measured: ({ atEpochMs, value, before }) =>
    before === null ? null : Math.abs(value - before.value) / ((atEpochMs - before.atEpochMs) / 3_600_000),
  measuredSql: 'abs(value - before_value) / ((at_us - before_us)::double / 3600000000.0::double)',
  unit: null,
  says: 'the change in an hour, since the reading before, is',
  looksBelow: false,
  greatestLimit: null,
}
