import { decideEscalation, type ToTell } from '../escalation/decide-escalation.ts'
import { escalationSteps } from '../escalation/escalation-steps.ts'
import { type Way, wayText } from '../roster/contact-ways.ts'
import type { Roster } from '../roster/on-duty.ts'
import type { SiteModel } from '../site/site.ts'
import type { Contact } from '../site/tables.ts'
import { sendingOf, withEnds } from '../suppression/held-back.ts'
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
}

const nothing: Telling = { happenings: [], due: [] }

/** Whether somebody is waited for: raised to be told, and not taken up. */
export const isTold = ({ untoldBecause, acknowledged, closed }: Alert): boolean =>
  untoldBecause === null && acknowledged === null && closed === null

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
  if (!isTold(alert)) return nothing
  const { heldBy, fromEpochMs } = sendingOf(
    subjectOf(alert, site, nowEpochMs),
    withEnds(site.suppressions, site.suppressionEnds),
    alert.openedAtEpochMs,
    nowEpochMs,
  )
  const [holding] = heldBy
  if (holding) {
    const heldBack = { suppression: holding.suppression.id, untilEpochMs: fromEpochMs }
    const known = alert.heldBack
    return known?.suppression === heldBack.suppression && known.untilEpochMs === fromEpochMs
      ? nothing
      : { happenings: [{ kind: 'held-back', ...heldBack }], due: [] }
  }
  const duty = dutyOf(alert)
  const sinceOpened = alert.attempts.filter(({ atEpochMs }) => atEpochMs >= alert.openedAtEpochMs)
  const contactById = new Map(site.contacts.map((contact) => [contact.id, contact]))
  const known = sinceOpened.flatMap((attempt) => {
    const way = wayOf(attempt, contactById.get(attempt.recipient))
    return way === null ? [] : [{ attempt, way }]
  })
  const pending = underWay.filter((one) => one.alert === alert.alert)
  const decision = decideEscalation(
    {
      duty,
      fromEpochMs,
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
      acknowledgedAtEpochMs: null,
      nowEpochMs,
    },
    escalationSteps(duty, site.escalations, site.dutyShifts),
    site,
  )
  const taken = decision.begun.filter((step) => isNew(step, fromEpochMs, alert.escalation))
  const isUnreachable = decision.findings.some(({ code }) => code === 'duty-unreachable')
  const told = new Set(decision.tell.map(({ contact, way }) => `${contact} ${wayText(way)}`))
  const repeated = repeats(known, nowEpochMs).filter(({ contact, way }) => {
    const isPending = pending.some((one) => one.contact === contact && wayText(one.way) === wayText(way))
    return !isPending && !told.has(`${contact} ${wayText(way)}`)
  })
  const last = decision.begun.at(-1)
  return {
    happenings: [
      ...taken.map(
        ({ step, round, because, people }): AlertHappening => ({
          kind: 'escalated',
          step,
          round,
          because,
          fromEpochMs,
          recipients: people,
        }),
      ),
      ...(isUnreachable && alert.unreachableSinceEpochMs === null
        ? [{ kind: 'unreachable', duty } as const]
        : []),
    ],
    due: [
      ...decision.tell.map((one) => ({ ...one, alert: alert.alert, message: null })),
      ...repeated.map((one) => ({
        ...one,
        alert: alert.alert,
        step: last?.step ?? 1,
        round: last?.round ?? 1,
      })),
    ],
  }
}

/** Steps are counted anew from the end of what held an alert back. */
const isNew = (
  { step, round }: { readonly step: number; readonly round: number },
  fromEpochMs: number,
  before: EscalationTaken | null,
): boolean =>
  before === null ||
  before.fromEpochMs !== fromEpochMs ||
  step > before.step ||
  (step === before.step && round > before.round)

interface KnownAttempt {
  readonly attempt: DeliveryAttempt
  readonly way: Way
}

/** Of each person and way the last attempt, where it failed and is due again. */
function repeats(
  known: readonly KnownAttempt[],
  nowEpochMs: number,
): readonly { readonly contact: string; readonly way: Way; readonly message: string }[] {
  const last = new Map(known.map((one) => [`${one.attempt.recipient} ${wayText(one.way)}`, one]))
  return [...last.values()].flatMap(({ attempt, way }) =>
    attempt.outcome === 'failed' && attempt.retryAtEpochMs !== null && attempt.retryAtEpochMs <= nowEpochMs
      ? [{ contact: attempt.recipient, way, message: attempt.message }]
      : [],
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
