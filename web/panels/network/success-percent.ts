import { formatValue } from '../../ui/format-value.ts'

/** A share as people read it; close to all of it, with two decimals. */
export const successPercent = (share: number): string =>
  `${formatValue(100 * share, share > 0.99 && share < 1 ? 2 : 1)} %`
