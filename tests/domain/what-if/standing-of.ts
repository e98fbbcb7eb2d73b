import type { CalibrationStep } from '#domain/reduction/chain.ts'
import type { Standing } from '#domain/what-if/apply-sandbox.ts'
import type { ChannelReadings, SandboxLink } from '#domain/what-if/sandbox-recipe.ts'

export const dayMs = 86_400_000
export const hourMs = 3_600_000

/** A link that holds for ever; give what a test is about. */
export const linkOf = (
  series: string,
  channel: number,
  steps: readonly CalibrationStep[],
  rest: Partial<SandboxLink> = {},
): SandboxLink => ({
  series,
  channel,
  steps,
  fromEpochMs: 0,
  untilEpochMs: Date.UTC(9999, 0, 1),
  temperatureSeries: null,
  barometerSeries: null,
  rangeLow: null,
  rangeHigh: null,
  decimals: 3,
  lateAfterMinutes: 120,
  ...rest,
})

/** Hourly readings from the first hour of 1970 on. */
export const hourly = (count: number, raw: (hour: number) => number): ChannelReadings => ({
  atEpochMs: Float64Array.from({ length: count }, (_, hour) => hour * hourMs),
  raw: Float64Array.from({ length: count }, (_, hour) => raw(hour)),
  receivedAfterSeconds: new Float64Array(count).fill(60),
})

/** A site of loggers whose channels are each one's own number. */
export const standingOf = (
  links: readonly SandboxLink[],
  readings: readonly (readonly [channel: number, own: ChannelReadings])[],
  loggerOf: (channel: number) => string = () => 'LG-1',
): Standing => ({
  recipe: {
    links,
    bundles: [],
    channels: [...new Set(links.map(({ channel }) => channel))].map((channel) => ({
      channel,
      logger: loggerOf(channel),
      name: `CH${channel}`,
      rawUnit: null,
    })),
  },
  readings: new Map(readings),
})
