import { accept, type Outcome } from '../outcome.ts'
import { linksWithin, refuse } from './edit-links.ts'
import { firstAtOrAfter } from './reduced-series.ts'
import type { SandboxChange } from './sandbox-change.ts'
import type { ChannelReadings, RawReadings, SandboxRecipe } from './sandbox-recipe.ts'

type ClockChange = Extract<SandboxChange, { kind: 'clock' }>

const dayMs = 86_400_000

/**
 * Readings with the stamps that a clock put right would have given, of every channel of the loggers that the series
 * meant are read by. Receipt stays when it was. Refused where a reading would come to lie at or before an earlier one.
 */
export function withClock(
  { links, channels }: SandboxRecipe,
  readings: RawReadings,
  change: ClockChange,
): Outcome<RawReadings> {
  const read = new Set(linksWithin(links, change).map(({ channel }) => channel))
  const loggers = new Set(channels.filter(({ channel }) => read.has(channel)).map(({ logger }) => logger))
  const moved = new Map(readings)
  for (const { channel, logger, name } of channels) {
    const own = readings.get(channel)
    if (!own || !loggers.has(logger)) continue
    const fresh = shifted(own, change)
    for (let at = 1; at < fresh.atEpochMs.length; at++)
      if (
        (fresh.atEpochMs[at] as number) <= (fresh.atEpochMs[at - 1] as number) &&
        (own.atEpochMs[at] as number) > (own.atEpochMs[at - 1] as number)
      )
        return refuse(
          'offsetSeconds',
          'readings-reordered',
          `With that clock the reading of ${logger} ${name} stamped ${new Date(own.atEpochMs[at] as number).toISOString()} would stand at or before the one that was taken earlier. Begin the change where the clock was set, or give a smaller offset.`,
          String(change.offsetSeconds),
        )
    moved.set(channel, fresh)
  }
  return accept(moved)
}

function shifted(own: ChannelReadings, change: ClockChange): ChannelReadings {
  const { fromEpochMs, untilEpochMs, offsetSeconds, driftSecondsPerDay } = change
  const atEpochMs = own.atEpochMs.slice()
  const receivedAfterSeconds = own.receivedAfterSeconds.slice()
  const end = untilEpochMs === null ? atEpochMs.length : firstAtOrAfter(own.atEpochMs, untilEpochMs)
  for (let at = firstAtOrAfter(own.atEpochMs, fromEpochMs); at < end; at++) {
    const stamp = own.atEpochMs[at] as number
    const seconds = offsetSeconds + (driftSecondsPerDay * (stamp - fromEpochMs)) / dayMs
    atEpochMs[at] = stamp + Math.round(seconds * 1000)
    receivedAfterSeconds[at] = (own.receivedAfterSeconds[at] as number) - Math.round(seconds)
  }
  return { atEpochMs, raw: own.raw, receivedAfterSeconds }
}
