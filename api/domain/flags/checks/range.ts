import type { Check } from '../check.ts'

/** Gross range: the value itself, against the sensor's range (fail) and any narrower one that was agreed (suspect). */
export const range: Check = {
  measured: ({ value }) => value,
  measuredSql: 'value',
  unit: null,
  says: 'the value is',
  looksBelow: true,
  greatestLimit: null,
}
