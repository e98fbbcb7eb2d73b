import { assert } from '../assert.ts'
import type { AlertCause, AlertEvent, AlertHappening, Finding } from './alert-event.ts'
import type { Episode } from './episode.ts'

/**
 * `raised`: nobody has been reached yet; `delivered`: a message was handed over to somebody's mail server, receiver or
 * device; `acknowledged`: somebody has taken it up; `verified`: somebody has said what it was; `closed`: with a reason.
 */
export const alertStates = ['raised', 'delivered', 'acknowledged', 'verified', 'closed'] as const
export type AlertState = (typeof alertStates)[number]

/** An event in which a person took a step, with what was said. */
export interface ResponseStep {
  readonly by: string
  readonly atEpochMs: number
  readonly note: string
}

export type DeliveryAttempt = Extract<AlertHappening, { kind: 'attempted' }> & { readonly atEpochMs: number }

export type EscalationTaken = Omit<Extract<AlertHappening, { kind: 'escalated' }>, 'kind'> & {
  readonly atEpochMs: number
}

/** What an alert is, as its events make it. */
export interface Alert {
  readonly alert: number
  readonly cause: AlertCause
  readonly state: AlertState
  readonly raisedAtEpochMs: number
  /** Since when somebody is waited for: raised, or opened again the last time. */
  readonly openedAtEpochMs: number
  readonly late: boolean
  /** Null again once it was opened again: those on duty are told then. */
  readonly untoldBecause: string | null
  /** False where readings that arrived later speak against it. */
  readonly bornOut: boolean
  /** The stretch as it is now known; null for a drill. */
  readonly episode: Episode | null
  /** Null again with the first attempt after it. */
  readonly heldBack: { readonly suppression: string; readonly untilEpochMs: number } | null
  readonly attempts: readonly DeliveryAttempt[]
  /** Step of telling people that was taken last since it was opened, as its event says; null: none. */
  readonly escalation: EscalationTaken | null
  /** Null while somebody was reached or has taken it up. */
  readonly unreachableSinceEpochMs: number | null
  /** The steps of the response in force; what a reopening set aside stays among the events. */
  readonly acknowledged: ResponseStep | null
  readonly verified: (ResponseStep & { readonly finding: Finding }) | null
  readonly closed: ResponseStep | null
  readonly lastEventAtEpochMs: number
}

/** What an alert is after its events, in the order in which they were recorded; the first of them raised it. */
export function alertOf(events: readonly AlertEvent[]): Alert {
  const [first, ...rest] = events
  assert(first, 'an alert without events')
  return rest.reduce(afterEvent, raisedBy(first))
}

/** The alerts of a site by their numbers, from all events in the order in which they were recorded. */
export function alertsOf(events: readonly AlertEvent[]): readonly Alert[] {
  const alerts = new Map<number, Alert>()
  for (const event of events) {
    const known = alerts.get(event.alert)
    alerts.set(event.alert, known ? afterEvent(known, event) : raisedBy(event))
  }
  return [...alerts.values()]
}

function raisedBy({ alert, atEpochMs, happening }: AlertEvent): Alert {
  assert(happening.kind === 'raised', `alert ${alert} begins with ${happening.kind}`)
  const { cause, late, untoldBecause } = happening
  return {
    alert,
    cause,
    state: 'raised',
    raisedAtEpochMs: atEpochMs,
    openedAtEpochMs: atEpochMs,
    late,
    untoldBecause,
    bornOut: true,
    episode: cause.kind === 'level' ? cause.episode : null,
    heldBack: null,
    attempts: [],
    escalation: null,
    unreachableSinceEpochMs: null,
    acknowledged: null,
    verified: null,
    closed: null,
    lastEventAtEpochMs: atEpochMs,
  }
}

/** An alert after one more event of it. An event that its state does not allow changes nothing but the last instant. */
export function afterEvent(alert: Alert, event: AlertEvent): Alert {
  const changed = { ...alert, ...changeBy(alert, event), lastEventAtEpochMs: event.atEpochMs }
  return { ...changed, state: stateOf(changed) }
}

function changeBy(alert: Alert, { atEpochMs, by, happening }: AlertEvent): Partial<Alert> {
  const step = (note: string): ResponseStep => ({ by: by ?? '', atEpochMs, note })
  switch (happening.kind) {
    case 'raised':
      return {}
    case 'extent-changed':
      return { episode: happening.episode }
    case 'not-borne-out':
      return { bornOut: false }
    case 'borne-out-again':
      return { bornOut: true, episode: happening.episode }
    case 'attempted':
      return {
        attempts: [...alert.attempts, { ...happening, atEpochMs }],
        heldBack: null,
        ...(happening.outcome === 'delivered' ? { unreachableSinceEpochMs: null } : {}),
      }
    case 'held-back':
      return { heldBack: { suppression: happening.suppression, untilEpochMs: happening.untilEpochMs } }
    case 'escalated':
      return { escalation: takenBy(happening, atEpochMs) }
    case 'unreachable':
      return { unreachableSinceEpochMs: alert.unreachableSinceEpochMs ?? atEpochMs }
    case 'acknowledged':
      return alert.acknowledged ? {} : { acknowledged: step(happening.note), unreachableSinceEpochMs: null }
    case 'verified':
      return alert.acknowledged && !alert.closed
        ? { verified: { ...step(happening.note), finding: happening.finding } }
        : {}
    case 'closed':
      return alert.verified && !alert.closed ? { closed: step(happening.reason) } : {}
    case 'reopened':
      return alert.closed || alert.untoldBecause !== null
        ? { ...openedAgain, openedAtEpochMs: atEpochMs }
        : {}
  }
}

const takenBy = (
  { kind: _, ...taken }: Extract<AlertHappening, { kind: 'escalated' }>,
  atEpochMs: number,
): EscalationTaken => ({ ...taken, atEpochMs })

const openedAgain = {
  untoldBecause: null,
  acknowledged: null,
  verified: null,
  closed: null,
  heldBack: null,
  escalation: null,
  unreachableSinceEpochMs: null,
} satisfies Partial<Alert>

function stateOf({ acknowledged, verified, closed, attempts }: Omit<Alert, 'state'>): AlertState {
  if (closed) return 'closed'
  if (verified) return 'verified'
  if (acknowledged) return 'acknowledged'
  return attempts.some(({ outcome }) => outcome === 'delivered') ? 'delivered' : 'raised'
}

/** Whether the level is still reached as far as readings tell; a drill never is. */
export const isStillReached = ({ bornOut, episode }: Alert): boolean =>
  bornOut && episode !== null && episode.leftAtEpochMs === null
