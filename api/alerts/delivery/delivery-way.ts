import type { AlertKind } from '#domain/alerts/alert-kinds.ts'

/** What is told, in words; the same for every way. */
export interface AlertMessage {
  /** Stable for one message to one recipient: repeated sendings carry the same, so that a receiver can tell them. */
  readonly id: string
  readonly site: string
  readonly siteName: string
  /** Id of the alert. */
  readonly alert: string
  /** An exercise: every way says so first. */
  readonly exercise: boolean
  /** Found in readings that arrived late. */
  readonly late: boolean
  readonly kind: AlertKind
  readonly subject: string
  /** Plain text, cautions included. */
  readonly text: string
  /** Address in the page, without origin. */
  readonly path: string
  readonly atEpochMs: number
  /** For machines. */
  readonly facts: Readonly<Record<string, string | number | boolean | null>>
}

/** Somebody, or some program, that is to be told. */
export interface Recipient {
  readonly id: string
  readonly name: string
  readonly email: string | null
  /** Id of the account whose devices are told. */
  readonly account: string | null
  /** Ids of webhooks of the message's site. */
  readonly webhooks: readonly string[]
}

/** What became of one attempt at one address. */
export type Attempt =
  /** Handed over, and to whom; it does not say that anybody read it. */
  | { readonly outcome: 'delivered'; readonly detail: string }
  /** `retry` false: trying again is useless. `askedWaitMs`: what the receiver asked for before the next attempt. */
  | {
      readonly outcome: 'failed'
      readonly detail: string
      readonly retry: boolean
      readonly askedWaitMs?: number
    }
  | { readonly outcome: 'not-set-up'; readonly detail: string }

/** One way of telling. It never throws for what the world does: every failure is an attempt on record. */
export interface DeliveryWay {
  readonly name: 'mail' | 'webhook' | 'push'
  send(message: AlertMessage, to: Recipient, signal: AbortSignal): Promise<readonly Attempt[]>
}

/** Subject or title as every way shows it: an exercise and a late finding are told before anything else. */
export const titleOf = ({ exercise, late, subject }: AlertMessage): string =>
  [exercise && 'EXERCISE', late && 'LATE', subject].filter((part) => part !== false).join(': ')

/** The text as every way shows it, an exercise told first. */
export const textOf = ({ exercise, text }: AlertMessage): string =>
  exercise ? `This is an exercise. It says nothing about the ground.\n\n${text}` : text
