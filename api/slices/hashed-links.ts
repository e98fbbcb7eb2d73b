import { clockWithin } from '#domain/reduction/clock-reach.ts'
import type { Link } from './links.ts'

/**
 * Links as they go into the hash of a recipe: every key by name, in the order that stored approvals and published months
 * were hashed by. JSON keeps the order of keys, so that another order is another hash: every approval would lapse and
 * every month be published anew with no record changed. What a link comes to hold later is put last, and only where a
 * link has it.
 */
export const hashedLinks = (links: readonly Link[]): readonly unknown[] => links.map(hashedLink)

const hashedLink = (link: Link) => ({
  channel: link.channel,
  series: link.series,
  fromEpochMs: link.fromEpochMs,
  untilEpochMs: link.untilEpochMs,
  shape: link.shape,
  steps: link.steps,
  coefficients: link.coefficients,
  temperatureSeries: link.temperatureSeries,
  temperatureMaximumAgeMinutes: link.temperatureMaximumAgeMinutes,
  barometerSeries: link.barometerSeries,
  barometerMaximumAgeMinutes: link.barometerMaximumAgeMinutes,
  rangeLow: link.rangeLow,
  rangeHigh: link.rangeHigh,
  decimals: link.decimals,
  lateAfterMinutes: link.lateAfterMinutes,
  ...clockOf(link),
})

/** Only what of a clock the time of the link hangs on. */
function clockOf(link: Link) {
  const clock = clockWithin(link.clock ?? [], link)
  return clock.length === 0 ? {} : { clock }
}
