import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import { formatInstant, formatOffset } from '../ui/format-instant.ts'

/** Up to when data are in a frozen set, on the site's clock: `14 Oct 2027 06:00 UTC−01:00`. */
export const cutOffWords = ({ cutOffEpochMs }: Pick<FrozenSet, 'cutOffEpochMs'>, timeZone: string): string =>
  `${formatInstant(cutOffEpochMs, timeZone).replace(/^\w+ /, '')} ${formatOffset(cutOffEpochMs, timeZone)}`

/** How much of it nobody stands for: `62.1 % of 301 234 readings not approved`. Never rounded to none or to all. */
export function provisionalWords({ readings: { all, provisional } }: Pick<FrozenSet, 'readings'>): string {
  if (all === 0) return 'no reading in it'
  return `${shareWords(provisional / all)} of ${grouped(all)} readings not approved`
}

function shareWords(share: number): string {
  if (share === 0) return '0 %'
  if (share === 1) return '100 %'
  const percent = (100 * share).toFixed(1)
  if (percent === '0.0') return 'less than 0.1 %'
  return percent === '100.0' ? 'more than 99.9 %' : `${percent} %`
}

/** Whole number in groups of three with thin spaces (ISO 80000-1). */
const grouped = (count: number): string => String(count).replace(/\B(?=(\d{3})+$)/g, '\u2009')
