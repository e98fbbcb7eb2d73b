import { z } from 'zod'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { RecordSinceFacts } from '#domain/meeting/record-since.ts'

const sha256 = z.string().regex(/^[0-9a-f]{64}$/)

/** `GET /api/sites/:site/frozen/:set`. */
export const frozenSetSchema: z.ZodType<FrozenSet> = z.strictObject({
  id: z.string().regex(/^[0-9a-f]{16}$/),
  site: z.string(),
  cutOffEpochMs: z.int(),
  frozenAtEpochMs: z.int(),
  frozenBy: z.string(),
  revision: z.int(),
  software: z.string(),
  readings: z.strictObject({ all: z.int().min(0), provisional: z.int().min(0) }),
  parts: z.array(z.strictObject({ name: z.string(), sha256, bytes: z.int().min(0) })),
})

/** `POST /api/sites/:site/frozen`; null: the present of the site. `author` counts where nobody has an account. */
export const freezeDraftSchema = z.strictObject({
  cutOffEpochMs: z.int().min(Date.UTC(1950, 0)).max(Date.UTC(2200, 0)).nullable(),
  author: z.string().min(1).max(200),
})

/** How far a freezing under way is. */
export interface FreezeProgress {
  readonly cutOffEpochMs: number
  readonly startedAtEpochMs: number
  /** Month that is being made (`2027-03`); null before the first, and while documents are. */
  readonly month: string | null
  readonly at: number
  readonly of: number
}

/** `GET /api/sites/:site/frozen`: every set, newest cut-off first; asked again while one is `running`. */
export interface FrozenSets {
  readonly sets: readonly FrozenSet[]
  readonly running: FreezeProgress | null
}

/**
 * `GET /api/sites/:site/frozen/:set/since`: what would be otherwise were it frozen today, by the same cut-off of instants.
 * For those who may read approved data only `by` and `why` are empty.
 */
export interface FrozenSince {
  readonly set: string
  readonly cutOffEpochMs: number
  /** When this was found. */
  readonly asOfEpochMs: number
  /** Readings with instants before the cut-off that were received later, or delivered later, by series. */
  readonly readings: readonly {
    /** `PZ-05C/pore-pressure`; null: of channels that nothing is wired to. */
    readonly series: string | null
    readonly count: number
    /** Whole days (UTC) that they lie in; until is exclusive. */
    readonly fromEpochMs: number
    readonly untilEpochMs: number
    readonly lastReceivedEpochMs: number
  }[]
  /** Records written after it was frozen, in their order. */
  readonly records: readonly (RecordSinceFacts & {
    readonly atEpochMs: number
    readonly by: string
    readonly why: string
  })[]
}
