import type { Check } from '../check.ts'

/** Size of the difference from the instrument beside it that measures the same. Neither is said to be right. */
export const duplicate: Check = {
  measured: ({ value, duplicate }) => (duplicate === null ? null : Math.abs(value - duplicate)),
  measuredSql: 'abs(value - duplicate_value)',
  unit: null,
  says: 'its difference from the instrument beside it is',
  looksBelow: false,
  greatestLimit: null,
}
