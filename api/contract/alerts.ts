import { z } from 'zod'
import type { Alert } from '#domain/alerts/alert.ts'
import type { AlertAction } from '#domain/alerts/alert-actions.ts'
import { type AlertEvent, type AlertWay, findings } from '#domain/alerts/alert-event.ts'
import type { AlertStatistics } from '#domain/alerts/alert-statistics.ts'
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
  /** All that are not closed or whose level is still reached, and those closed within the last 90 days, newest first. */
  readonly alerts: readonly ListedAlert[]
  /** Crossings that have not stood long enough to be raised, or never did in the last 7 days: nothing is lost. */
  readonly crossings: readonly Episode[]
  /** Series with a level that cannot be evaluated now: no current data, or no reading from which it counts a change. */
  readonly unknown: readonly {
    readonly series: number
    readonly lastEpochMs: number | null
    readonly critical: boolean
  }[]
  /** Series that have a level in force now and are read. */
  readonly watchedSeries: number
  /** Series that have a level in force now and that nothing reads: not wired, or out of use. Nothing is known of them. */
  readonly unreadSeries: number
  readonly telling: {
    /** Ways that are set up here; empty: nobody is told who does not look at the page. */
    readonly ways: readonly AlertWay[]
    /** Duties needed by levels in force for which nobody is on now. */
    readonly nobodyOn: readonly string[]
  }
  /** How the monthly drill stands; null: none is planned. */
  readonly drill: {
    readonly duty: string
    /** The last time that one was due; the next. */
    readonly dueEpochMs: number
    readonly nextEpochMs: number
    /** When the last one due was held; null: it was not, and is overdue. */
    readonly heldEpochMs: number | null
    /** The last one held at all; null: none is on record. */
    readonly lastEpochMs: number | null
  } | null
}

/**
 * An alert as a list shows it. For those who may read approved data only, who was told and what was said is left out:
 * `attempts` and `escalation` are null, `by` and `note` of a step are empty.
 */
export interface ListedAlert extends Omit<Alert, 'attempts'> {
  readonly attempts: Alert['attempts'] | null
  /** Names of the contacts of its attempts, by id; absent where these are left out. */
  readonly names?: Readonly<Record<string, string>>
  /** Point and series that its level watches; null for a drill. */
  readonly series: string | null
  readonly point: string | null
}

/** `GET /api/sites/:site/alerts/:alert`: one alert with everything that happened to it. */
export interface AlertRecord {
  readonly alert: ListedAlert
  readonly events: readonly (AlertEvent & { readonly number: number })[]
  /** Names of the contacts that its events speak of; of one that is no longer on the roster, the id. */
  readonly names: Readonly<Record<string, string>>
  /** How people are told, a sentence a step. */
  readonly escalation: readonly string[]
  /** Number to send back with a step, so that nobody acts on what somebody else has changed meanwhile. */
  readonly latest: number
}

/** `GET /api/sites/:site/alerts/statistics`: what people were told of since the beginning, and how much of it was about something. */
export interface StatisticsDocument {
  readonly site: string
  readonly asOfEpochMs: number
  readonly statistics: AlertStatistics
}

const said = z.string().max(2000)

/** Where a step is posted to: each kind has a path of its own, because not everyone may take every step. */
export const stepPath = (site: string, alert: number, kind: AlertAction['kind']): string =>
  `/api/sites/${encodeURIComponent(site)}/alerts/${alert}/${kind}`

/**
 * `POST /api/sites/:site/alerts/:alert/acknowledge`, `…/verify`, `…/close`, `…/reopen`, answered with the `AlertRecord`.
 * 409 where somebody acted after `latest`: look at the record again. `author` counts where nobody has an account.
 */
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

/** `POST /api/sites/:site/drills`: a test of the chain for a duty, told as an exercise; answered with the `AlertRecord`. */
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
