import type { SandboxRecipe } from '#domain/what-if/sandbox-recipe.ts'

/** Raw readings of one channel in order of time; the three lists are as long as each other. */
export interface RawChannel {
  readonly channel: number
  /** Milliseconds since the reading before; of the first, since `fromEpochMs` of the answer: it may lie before. */
  readonly sinceLastMs: readonly number[]
  /** In the channel's own unit; null: the logger gave none. */
  readonly raw: readonly (number | null)[]
  readonly receivedAfterSeconds: readonly number[]
}

/**
 * `GET /api/sites/:site/raw?series=…&from=…&until=…`: raw electrical readings behind some series, and how values are
 * made of them. From inclusive, until exclusive; readings from before stand in it where companions or surveys reach back.
 */
export interface RawAnswer {
  readonly site: string
  readonly revision: number
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  /** The series asked for, companions and members of made ones among what the recipe makes beside them. */
  readonly series: readonly string[]
  readonly recipe: SandboxRecipe
  readonly channels: readonly RawChannel[]
}

/** What one question may ask for at most. */
export const rawLimits = { series: 250, days: 400, readings: 1_000_000 } as const
