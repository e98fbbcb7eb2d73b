import { atInstants } from './put-right.ts'
import type { ChannelReadings, RawReadings, SandboxRecipe } from './sandbox-recipe.ts'

/** Readings of a channel as they come over the wire; instants by their distances. */
interface PackedChannel {
  readonly channel: number
  readonly sinceLastMs: readonly number[]
  readonly raw: readonly (number | null)[]
  readonly receivedAfterSeconds: readonly number[]
}

/**
 * Readings as columns, from their packed form, at the instants that the recipe's clocks put right; the first stamp of each
 * channel counts from `fromEpochMs`.
 */
export const unpackReadings = (
  channels: readonly PackedChannel[],
  fromEpochMs: number,
  recipe: Pick<SandboxRecipe, 'channels' | 'clocks'>,
): RawReadings =>
  atInstants(recipe, new Map(channels.map((one) => [one.channel, unpacked(one, fromEpochMs)])))

function unpacked(packed: PackedChannel, fromEpochMs: number): ChannelReadings {
  let at = fromEpochMs
  return {
    atEpochMs: Float64Array.from(packed.sinceLastMs, (sinceLastMs) => {
      at += sinceLastMs
      return at
    }),
    raw: Float64Array.from(packed.raw, (raw) => raw ?? Number.NaN),
    receivedAfterSeconds: Float64Array.from(packed.receivedAfterSeconds),
  }
}
