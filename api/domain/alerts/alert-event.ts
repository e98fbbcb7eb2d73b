import type { TriggerLevel } from '../site/tables.ts'
import type { Episode } from './episode.ts'

/** What was found when an alert was looked into; who closes it says which. */
export const findings = ['movement', 'nuisance', 'false'] as const
/**
 * `movement`: what was told happened, a silence too, and mattered; `nuisance`: it happened and asked for nothing; `false`: it did
 * not happen, the measuring was at fault.
 */
export type Finding = (typeof findings)[number]

/** How people are told. */
export const alertWays = ['mail', 'webhook', 'push'] as const
export type AlertWay = (typeof alertWays)[number]

/** Why an alert was raised. */
export type AlertCause =
  /** A trigger level was reached; the level as it stood then, so that later versions rewrite nothing. */
  | { readonly kind: 'level'; readonly level: TriggerLevel; readonly episode: Episode }
  /** A test of the chain; nothing was measured. */
  | { readonly kind: 'drill'; readonly duty: string; readonly reason: string }

/** What happened to an alert. Events are only ever added; what an alert is follows from them (`alertOf`). */
export type AlertHappening =
  | {
      readonly kind: 'raised'
      readonly cause: AlertCause
      /** Its readings arrived too late for anyone to have been told in time. */
      readonly late: boolean
      /** Why nobody is told; null: those on duty are. */
      readonly untoldBecause: string | null
    }
  /** Later readings changed when it began, peaked or ended. */
  | { readonly kind: 'extent-changed'; readonly episode: Episode }
  /** With readings that arrived later, the level was not reached as it seemed; what was raised stays on record. */
  | { readonly kind: 'not-borne-out' }
  | { readonly kind: 'borne-out-again'; readonly episode: Episode }
  | {
      readonly kind: 'attempted'
      /** The same for repeated sendings of one message to one person. */
      readonly message: string
      /** Id of a contact of the roster. */
      readonly recipient: string
      readonly way: AlertWay
      /** Which of the recipient's webhooks; null: the way says it all. */
      readonly to: string | null
      readonly outcome: 'delivered' | 'failed' | 'not-set-up'
      readonly detail: string
      /** When it is tried again; null: not by this way. */
      readonly retryAtEpochMs: number | null
    }
  /** Sending waits for the end of a suppression. */
  | { readonly kind: 'held-back'; readonly suppression: string; readonly untilEpochMs: number }
  /** A step of telling people began; the first, too. */
  | {
      readonly kind: 'escalated'
      /** 1 for the first. */
      readonly step: number
      /** 1; of the last step, how often it was taken. */
      readonly round: number
      readonly because: 'raised' | 'nobody-on' | 'not-delivered' | 'not-acknowledged'
      /** When it was due; a server that stood still records it later. */
      readonly takenAtEpochMs: number
      /** Ids of contacts; empty: nobody was on. */
      readonly recipients: readonly string[]
    }
  /** Nobody at all could be asked, or all that was tried failed. */
  | { readonly kind: 'unreachable'; readonly duty: string }
  | { readonly kind: 'acknowledged'; readonly note: string }
  | { readonly kind: 'verified'; readonly finding: Finding; readonly note: string }
  | { readonly kind: 'closed'; readonly reason: string }
  | { readonly kind: 'reopened'; readonly reason: string }

/** One event of an alert. */
export interface AlertEvent {
  /** Number of the alert at its site: 1, 2, 3 … in the order in which they were raised. */
  readonly alert: number
  /** When it was recorded. */
  readonly atEpochMs: number
  /** Who did it; null: the server. */
  readonly by: string | null
  readonly happening: AlertHappening
}
