import { addedMs, type ClockSetting, settingAt } from '../reduction/logger-clock.ts'
import type { ChannelReadings, RawReadings, SandboxRecipe } from './sandbox-recipe.ts'

/**
 * Readings of a channel as they were sent, at the instants that its clock put right would have stamped, in order of these.
 * Receipt stays when it was. Of readings that come to stand at one instant that holds which was received first, and of
 * those received together the one stamped first: as the view of the store has it.
 */
export function putRight(sent: ChannelReadings, settings: readonly ClockSetting[]): ChannelReadings {
  if (settings.length === 0) return sent
  const moved = Float64Array.from(sent.atEpochMs, (stamp) => {
    const held = settingAt(settings, stamp)
    return held === null ? 0 : addedMs(held, stamp)
  })
  const instantOf = (at: number) => (sent.atEpochMs[at] as number) + (moved[at] as number)
  if (isGrowing(moved.length, instantOf))
    return {
      atEpochMs: Float64Array.from(moved, (_, at) => instantOf(at)),
      raw: sent.raw,
      receivedAfterSeconds: sent.receivedAfterSeconds.map(
        (seconds, at) => seconds - Math.floor((moved[at] as number) / 1000),
      ),
      sent,
    }
  const receiptOf = (at: number) =>
    (sent.atEpochMs[at] as number) + 1000 * (sent.receivedAfterSeconds[at] as number)
  const ordered = [...moved.keys()].toSorted(
    (one, other) => instantOf(one) - instantOf(other) || receiptOf(one) - receiptOf(other) || one - other,
  )
  const kept = ordered.filter((at, place) => {
    const before = ordered[place - 1]
    return before === undefined || instantOf(before) !== instantOf(at)
  })
  return {
    atEpochMs: Float64Array.from(kept, instantOf),
    raw: Float64Array.from(kept, (at) => sent.raw[at] as number),
    receivedAfterSeconds: Float64Array.from(
      kept,
      (at) => (sent.receivedAfterSeconds[at] as number) - Math.floor((moved[at] as number) / 1000),
    ),
    sent,
  }
}

function isGrowing(count: number, instantOf: (at: number) => number): boolean {
  for (let at = 1; at < count; at++) if (instantOf(at) <= instantOf(at - 1)) return false
  return true
}

/** Readings as they were sent, with those of loggers whose clocks are on record at the instants put right. */
export function atInstants(
  { channels, clocks = [] }: Pick<SandboxRecipe, 'channels' | 'clocks'>,
  sent: RawReadings,
): RawReadings {
  if (clocks.length === 0) return sent
  const settingsOf = new Map(clocks.map(({ logger, settings }) => [logger, settings]))
  const loggerOf = new Map(channels.map(({ channel, logger }) => [channel, logger]))
  return new Map(
    [...sent].map(([channel, own]) => [
      channel,
      putRight(own, settingsOf.get(loggerOf.get(channel) ?? '') ?? []),
    ]),
  )
}
