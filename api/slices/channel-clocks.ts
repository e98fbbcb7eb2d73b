import { groupBy } from '#domain/group-by.ts'
import { clocksOf } from '#domain/reduction/logger-clock.ts'
import type { LoggerClock } from '#domain/site/tables.ts'
import type { ChannelClock } from '../store/store.ts'

/** Clocks on record of loggers, each with the channels of it that are given; loggers without one are left out. */
export function channelClocks(
  records: readonly LoggerClock[],
  channels: readonly { readonly channel: number; readonly logger: string }[],
): readonly ChannelClock[] {
  const clocks = clocksOf(records)
  return [...groupBy(channels, ({ logger }) => logger)].flatMap(([logger, own]) => {
    const settings = clocks.get(logger)
    return settings ? [{ channels: [...new Set(own.map(({ channel }) => channel))], settings }] : []
  })
}
