import type { BegunStep, ToTell } from '../escalation/decide-escalation.ts'
import { decideTelling } from '../escalation/decide-telling.ts'
import { type Way, wayText } from '../roster/contact-ways.ts'
import type { Roster } from '../roster/on-duty.ts'
import type { SiteModel } from '../site/site.ts'
import type { Contact } from '../site/tables.ts'
import type { Alert, DeliveryAttempt, EscalationTaken } from './alert.ts'
import type { AlertHappening, AlertWay } from './alert-event.ts'
import { subjectOf } from './alert-subject.ts'

/** What the telling of an alert depends on beside the alert itself. */
export type TellingSite = Roster &
  Pick<
    SiteModel,
    'escalations' | 'suppressions' | 'suppressionEnds' | 'points' | 'sensors' | 'instruments' | 'wiring'
  >

/** Something that is being sent at this moment; nothing is known of it yet. */
export interface SendingUnderWay {
  readonly alert: number
  readonly contact: string
  readonly way: Way
  readonly atEpochMs: number
}

/** One person to be told of one alert by one way. */
export interface DueTelling extends Omit<ToTell, 'way'> {
  readonly alert: number
  readonly way: Way
  /** Of an earlier attempt that failed and is repeated; null: never sent. */
  readonly message: string | null
}

export interface Telling {
  /** What is to be recorded before anything is sent. */
  readonly happenings: readonly AlertHappening[]
  readonly due: readonly DueTelling[]
  /** Until then nothing follows by itself; infinite: never. */
  readonly nextEpochMs: number
}

const nothing: Telling = { happenings: [], due: [], nextEpochMs: Number.POSITIVE_INFINITY }

/** Whether somebody is waited for: raised to be told, and not taken up. */
export const isTold = ({ untoldBecause, acknowledged, closed }: Alert): boolean =>
  untoldBecause === null && acknowledged === null && closed === null

/** Step of what is said to those who were told, once the response is closed. */
export const closingStep = 0

/** After so long nobody is told any more that a response was closed. */
const closingToldMs = 36 * 3_600_000

/** Duty whose people are told. */
export const dutyOf = ({ cause }: Pick<Alert, 'cause'>): string =>
  cause.kind === 'drill' ? cause.duty : cause.level.owner

/**
 * Who is to be told of an alert now and what is to be recorded of it, from what happened to it and the roster as it is.
 * Asked again after it was done, at the same instant, it gives nothing; so it may be asked at any time and however often.
 */
export function tellingOf(
  alert: Alert,
  site: TellingSite,
  underWay: readonly SendingUnderWay[],
  nowEpochMs: number,
): Telling {
  const pending = underWay.filter((one) => one.alert === alert.alert)
  if (alert.closed) return tellingOfClosing(alert, alert.closed.atEpochMs, site, pending, nowEpochMs)
  if (!isTold(alert)) return nothing
  const duty = dutyOf(alert)
  const known = knownAttempts(alert, site)
  const { heldBy, tell, begun, findings, next } = decideTelling(
    site,
    {
      subject: subjectOf(alert, site, nowEpochMs),
      duty,
      raisedAtEpochMs: alert.openedAtEpochMs,
      acknowledgedAtEpochMs: null,
      attempts: [
        ...known.map(({ attempt, way }) => ({
          contact: attempt.recipient,
          way: wayText(way),
          atEpochMs: attempt.atEpochMs,
          outcome: attempt.outcome === 'delivered' ? ('delivered' as const) : ('failed' as const),
        })),
        ...pending.map(({ contact, way, atEpochMs }) => ({
          contact,
          way: wayText(way),
          atEpochMs,
          outcome: 'pending' as const,
        })),
      ],
    },
    nowEpochMs,
  )
  const nextEpochMs = next?.atEpochMs ?? Number.POSITIVE_INFINITY
  const [holding] = heldBy
  if (holding) {
    const heldBack = { suppression: holding.suppression.id, untilEpochMs: nextEpochMs }
    const isKnown =
      alert.heldBack?.suppression === heldBack.suppression && alert.heldBack.untilEpochMs === nextEpochMs
    return { happenings: isKnown ? [] : [{ kind: 'held-back', ...heldBack }], due: [], nextEpochMs }
  }
  const last = begun.at(-1)
  // Every step was taken and waited out, and nothing was handed over to anybody.
  const isRefused =
    (last?.round ?? 1) > 1 &&
    !alert.attempts.some(
      ({ outcome, atEpochMs }) => outcome === 'delivered' && atEpochMs >= alert.openedAtEpochMs,
    )
  const isUnreachable = isRefused || findings.some(({ code }) => code === 'duty-unreachable')
  const repeats = repeatsOf(known).filter(
    ({ contact, way }) =>
      ![...pending, ...tell].some((one) => one.contact === contact && wayText(one.way) === wayText(way)),
  )
  return {
    happenings: [
      ...begun
        .filter((step) => isNew(step, alert.escalation))
        .map(
          ({ step, round, because, people, atEpochMs }): AlertHappening => ({
            kind: 'escalated',
            step,
            round,
            because,
            takenAtEpochMs: atEpochMs,
            recipients: people,
          }),
        ),
      ...(isUnreachable && alert.unreachableSinceEpochMs === null
        ? [{ kind: 'unreachable', duty } as const]
        : []),
    ],
    due: [
      ...tell.map((one) => ({ ...one, alert: alert.alert, message: null })),
      ...repeats
        .filter(({ atEpochMs }) => atEpochMs <= nowEpochMs)
        .map(({ atEpochMs: _, ...one }) => ({
          ...one,
          alert: alert.alert,
          step: last?.step ?? 1,
          round: last?.round ?? 1,
        })),
    ],
    nextEpochMs: Math.min(nextEpochMs, ...repeats.map(({ atEpochMs }) => atEpochMs)),
  }
}

/** Those who were told of an alert are told once that its response was closed: whoever waits for word gets it. */
function tellingOfClosing(
  alert: Alert,
  closedAtEpochMs: number,
  site: TellingSite,
  pending: readonly SendingUnderWay[],
  nowEpochMs: number,
): Telling {
  if (alert.cause.kind === 'drill' || nowEpochMs - closedAtEpochMs > closingToldMs) return nothing
  const known = knownAttempts(alert, site)
  const since = known.filter(({ attempt }) => attempt.atEpochMs >= closedAtEpochMs)
  const told = new Map(
    known
      .filter(({ attempt }) => attempt.outcome === 'delivered')
      .map(({ attempt, way }) => [
        `${attempt.recipient} ${wayText(way)}`,
        { contact: attempt.recipient, way },
      ]),
  )
  const isAmong = (one: { contact: string; way: Way }, others: readonly { contact: string; way: Way }[]) =>
    others.some((other) => other.contact === one.contact && wayText(other.way) === wayText(one.way))
  const fresh = [...told.values()].filter(
    (one) =>
      !isAmong(one, pending) &&
      !isAmong(
        one,
        since.map(({ attempt, way }) => ({ contact: attempt.recipient, way })),
      ),
  )
  const repeats = repeatsOf(since).filter((one) => !isAmong(one, pending))
  const step = { alert: alert.alert, step: closingStep, round: 1 }
  return {
    happenings: [],
    due: [
      ...fresh.map((one) => ({ ...one, ...step, message: null })),
      ...repeats
        .filter(({ atEpochMs }) => atEpochMs <= nowEpochMs)
        .map(({ contact, way, message }) => ({ contact, way, ...step, message })),
    ],
    nextEpochMs: Math.min(...repeats.map(({ atEpochMs }) => atEpochMs), Number.POSITIVE_INFINITY),
  }
}

/** Attempts since the alert was opened, by ways that the roster has. */
function knownAttempts(alert: Alert, { contacts }: Pick<TellingSite, 'contacts'>): readonly KnownAttempt[] {
  const contactById = new Map(contacts.map((contact) => [contact.id, contact]))
  return alert.attempts.flatMap((attempt) => {
    const way = wayOf(attempt, contactById.get(attempt.recipient))
    return way === null || attempt.atEpochMs < alert.openedAtEpochMs ? [] : [{ attempt, way }]
  })
}

/** Steps are counted by when they were due, not by when they were recorded. */
const isNew = ({ step, round, atEpochMs }: BegunStep, before: EscalationTaken | null): boolean =>
  before === null ||
  atEpochMs > before.takenAtEpochMs ||
  (atEpochMs === before.takenAtEpochMs &&
    (step > before.step || (step === before.step && round > before.round)))

interface KnownAttempt {
  readonly attempt: DeliveryAttempt
  readonly way: Way
}

/** Of each person and way the last attempt, where it failed and is to be made again. */
function repeatsOf(known: readonly KnownAttempt[]) {
  const last = new Map(known.map((one) => [`${one.attempt.recipient} ${wayText(one.way)}`, one]))
  return [...last.values()].flatMap(({ attempt: { recipient, message, retryAtEpochMs }, way }) =>
    retryAtEpochMs === null ? [] : [{ contact: recipient, way, message, atEpochMs: retryAtEpochMs }],
  )
}

/** By which way of the roster an attempt was made; the address is the one that the roster has now. */
function wayOf({ way, to, recipient }: DeliveryAttempt, contact: Contact | undefined): Way | null {
  if (way === 'webhook') return { kind: 'webhook', to: to ?? recipient }
  const address = way === 'mail' ? contact?.email : contact?.account
  return address ? { kind: way === 'mail' ? 'email' : 'account', to: address } : null
}

/** How a way of the roster is named on record. */
export const wayOnRecord = ({ kind, to }: Way): { readonly way: AlertWay; readonly to: string | null } =>
  kind === 'webhook'
    ? { way: 'webhook', to }
    : kind === 'email'
      ? { way: 'mail', to: null }
      : { way: 'push', to: null }
