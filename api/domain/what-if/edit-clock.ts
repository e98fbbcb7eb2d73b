import { accept, type Outcome } from '../outcome.ts'
import { type ClockSetting, clockAt, instantOfStamp, withoutRepeats } from '../reduction/logger-clock.ts'
import type { Standing } from './apply-sandbox.ts'
import { linksWithin, refuse } from './edit-links.ts'
import { putRight } from './put-right.ts'
import type { SandboxChange } from './sandbox-change.ts'
import type { SandboxRecipe } from './sandbox-recipe.ts'

export type ClockChange = Extract<SandboxChange, { kind: 'clock' }>

/**
 * Recipe and readings with the clocks of the loggers that the series meant are read by put right, in the place of what was
 * on record for that time; it ends where another record begins. Refused where a reading would come to lie at or before
 * an earlier one that it did not lie at or before already.
 */
export function withClock({ recipe, readings }: Standing, change: ClockChange): Outcome<Standing> {
  const loggers = loggersOf(recipe, change)
  const clocks = new Map((recipe.clocks ?? []).map(({ logger, settings }) => [logger, settings]))
  const moved = new Map(readings)
  for (const logger of loggers) {
    const before = clocks.get(logger) ?? []
    const after = settingsWith(before, change)
    clocks.set(logger, after)
    for (const { channel, name } of recipe.channels.filter((one) => one.logger === logger)) {
      const own = readings.get(channel)
      if (!own) continue
      const sent = own.sent ?? own
      const stamp = firstReordered(sent.atEpochMs, before, after)
      if (stamp !== null)
        return refuse(
          'offsetSeconds',
          'readings-reordered',
          `With that clock the reading of ${logger} ${name} stamped ${new Date(stamp).toISOString()} would stand at or before the one that was taken earlier. Begin the change where the clock was set, or give a smaller offset.`,
          String(change.offsetSeconds),
        )
      moved.set(channel, putRight(sent, after))
    }
  }
  return accept({
    recipe: { ...recipe, clocks: [...clocks].map(([logger, settings]) => ({ logger, settings })) },
    readings: moved,
  })
}

/** Loggers whose clock a change is of. */
export function loggersOf(
  { links, channels }: Pick<SandboxRecipe, 'links' | 'channels'>,
  change: ClockChange,
): ReadonlySet<string> {
  const read = new Set(linksWithin(links, change).map(({ channel }) => channel))
  return new Set(channels.filter(({ channel }) => read.has(channel)).map(({ logger }) => logger))
}

/** Settings with one in the place of what held in its time, which ends at the latest where another begins. */
export function settingsWith(
  settings: readonly ClockSetting[],
  { fromEpochMs, untilEpochMs, offsetSeconds, driftSecondsPerDay }: Omit<ClockChange, 'series' | 'kind'>,
): readonly ClockSetting[] {
  const next = settings.find((one) => one.fromEpochMs > fromEpochMs)?.fromEpochMs ?? null
  const ends = next !== null && (untilEpochMs === null || next <= untilEpochMs) ? null : untilEpochMs
  return withoutRepeats([
    ...settings.filter((one) => one.fromEpochMs < fromEpochMs),
    { fromEpochMs, addedSeconds: offsetSeconds, addedSecondsPerDay: driftSecondsPerDay },
    ...(ends === null ? [] : [{ fromEpochMs: ends, ...clockAt(settings, ends) }]),
    ...settings.filter((one) => one.fromEpochMs > fromEpochMs),
  ])
}

/** First stamp that comes to stand at or before the one before it, and did not; null: none. */
function firstReordered(
  stamps: Float64Array,
  before: readonly ClockSetting[],
  after: readonly ClockSetting[],
): number | null {
  for (let at = 1; at < stamps.length; at++) {
    const [last, own] = [stamps[at - 1] as number, stamps[at] as number]
    if (
      instantOfStamp(after, own) <= instantOfStamp(after, last) &&
      instantOfStamp(before, own) > instantOfStamp(before, last)
    )
      return own
  }
  return null
}
