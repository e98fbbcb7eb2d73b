import type { Check } from '../check.ts'

/**
 * How far the value stands off the straight line in time between the readings before and after it; with even times
 * QARTOD's spike test. Not evaluated until the next reading is there.
 */
export const spike: Check = {
  measured: ({ atEpochMs, value, before, after }) =>
    before === null || after === null
      ? null
      : Math.abs(
          value -
            (before.value +
              (after.value - before.value) *
                ((atEpochMs - before.atEpochMs) / (after.atEpochMs - before.atEpochMs))),
        ),
  measuredSql:
    'abs(value - (before_value + (after_value - before_value) * ((at_us - before_us)::double / (after_us - before_us)::double)))',
  unit: null,
  says: 'its distance from the line between its neighbours is',
  looksBelow: false,
  greatestLimit: null,
}
