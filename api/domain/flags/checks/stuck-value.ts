import type { Check } from '../check.ts'

/** Hours for which the series has shown the very same digits (QARTOD's flat line). */
export const stuckValue: Check = {
  measured: ({ atEpochMs, unchangedSinceEpochMs }) => (atEpochMs - unchangedSinceEpochMs) / 3_600_000,
  measuredSql: '(at_us - unchanged_since_us)::double / 3600000000.0::double',
  unit: 'h',
  says: 'it has shown the same digits for',
  looksBelow: false,
  greatestLimit: 24,
}
