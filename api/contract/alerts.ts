import { z } from 'zod'
import type { Alert } from '#domain/alerts/alert.ts'
import type { AlertAction } from '#domain/alerts/alert-actions.ts'
import { type AlertEvent, findings } from '#domain/alerts/alert-event.ts'
import type { Episode } from '#domain/alerts/episode.ts'

/** `GET /api/sites/:site/alerts`: what was raised and how far the response is. */
export interface AlertsDocument {
  readonly site: string
  /** The instant that counts as the present here. */
  readonly asOfEpochMs: number
  /** Number of the last event told. */
  readonly latest: number
  readonly evaluation: {
    /** Revision of the readings up to which levels were evaluated. */
    readonly revision: number
    /** Readings are here that were not evaluated yet. */
    readonly behind: boolean
    readonly evaluatedAtEpochMs: number | null
    /** Why evaluation stands still; null: it does not. */
    readonly failure: string | null
  }
  /** All that are not closed, and those closed within the last 90 days, newest first. */
  readonly alerts: readonly ListedAlert[]
  /** Crossings that have not stood long enough to be raised, or never did in the last 7 days: nothing is lost. */
  readonly crossings: readonly Episode[]
  /** Levels of a series that cannot be evaluated now: no current data. */
  readonly unknown: readonly {
    readonly series: number
    readonly lastEpochMs: number | null
    readonly critical: boolean
  }[]
  /** Series that have a level in force now. */
  readonly watchedSeries: number
}

/** An alert as a list shows it; who was told by which way is left out for those who may read approved data only. */
export interface ListedAlert extends Omit<Alert, 'attempts'> {
  readonly attempts: Alert['attempts'] | null
  /** Point and series that its level watches; null for a drill. */
  readonly series: string | null
  readonly point: string | null
}

/** `GET /api/sites/:site/alerts/:alert`: one alert with everything that happened to it. */
export interface AlertRecord {
  readonly alert: ListedAlert
  readonly events: readonly (AlertEvent & { readonly number: number })[]
  /** Number to send back with a step, so that nobody acts on what somebody else has changed meanwhile. */
  readonly latest: number
}

const said = z.string().max(2000)

/** `POST /api/sites/:site/alerts/:alert/steps`. `author` counts where nobody has an account. */
export const alertStepSchema = z.strictObject({
  step: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('acknowledge'), note: said }),
    z.strictObject({ kind: z.literal('verify'), finding: z.enum(findings), note: said }),
    z.strictObject({ kind: z.literal('close'), reason: said }),
    z.strictObject({ kind: z.literal('reopen'), reason: said }),
  ]) satisfies z.ZodType<AlertAction>,
  author: z.string().min(1).max(200),
  latest: z.int().min(0),
})

/** `POST /api/sites/:site/drills`: a test of the chain for a duty, told as an exercise. */
export const drillSchema = z.strictObject({
  duty: z.string().min(1).max(200),
  reason: said,
  author: z.string().min(1).max(200),
})

/** Events of `GET /api/sites/:site/events` (server-sent): each says what is worth asking for again. */
export const siteEventSchema = z.discriminatedUnion('kind', [
  /** An alert was raised or changed. */
  z.strictObject({ kind: z.literal('alerts'), latest: z.int(), raised: z.array(z.int()) }),
  /** Slices and states were published. */
  z.strictObject({ kind: z.literal('published'), revision: z.int() }),
])
export type SiteEvent = z.infer<typeof siteEventSchema>
