import { assert } from '../assert.ts'
import type { Way } from '../roster/contact-ways.ts'
import { wayText } from '../roster/contact-ways.ts'
import type { Roster } from '../roster/on-duty.ts'
import type { EscalationStep } from './escalation-steps.ts'
import { everOnStep, peopleOfLastOrder, peopleOnStep, type StepPerson } from './step-people.ts'

const minuteMs = 60_000

/** One try to tell a person in one way; `way` as `wayText` writes it. Pending: begun, and nothing is known of it yet. */
export interface TellingAttempt {
  readonly contact: string
  readonly way: string
  readonly atEpochMs: number
  readonly outcome: 'delivered' | 'failed' | 'pending'
}

export interface EscalationQuestion {
  /** Duty that is needed: the owner of the level. */
  readonly duty: string
  /** From when people are told: the alert was raised, or what held it back ended (`sendingOf`). */
  readonly fromEpochMs: number
  /** In any order; those of before `fromEpochMs` count for nothing. */
  readonly attempts: readonly TellingAttempt[]
  readonly acknowledgedAtEpochMs: number | null
  readonly nowEpochMs: number
}

/** Why a step is taken. */
export type StepReason = 'raised' | 'nobody-on' | 'not-delivered' | 'not-acknowledged'

export interface BegunStep {
  /** 1 for the first. */
  readonly step: number
  /** 1; of the last step, how often it was taken. */
  readonly round: number
  readonly duty: string
  readonly order: number | null
  /** When it was taken (of the last step, last taken), and why. */
  readonly atEpochMs: number
  readonly because: StepReason
  /** Ids of those on then. */
  readonly people: readonly string[]
}

export interface ToTell {
  readonly contact: string
  readonly way: Way
  readonly step: number
  readonly round: number
}

export interface EscalationFinding {
  readonly code: 'nobody-on-duty' | 'duty-unreachable'
  readonly duty: string
  readonly step: number
  readonly atEpochMs: number
  readonly message: string
}

export interface EscalationDecision {
  /** Ways to try now: of everyone whom a step taken so far means, those not tried since that step. */
  readonly tell: readonly ToTell[]
  readonly begun: readonly BegunStep[]
  /** When to decide again at the latest, and why; null: it was acknowledged. */
  readonly next: { readonly atEpochMs: number; readonly because: StepReason | 'handover' } | null
  readonly findings: readonly EscalationFinding[]
}

/**
 * Who is to be told of one alert now, and what follows. Steps are counted from `fromEpochMs` by what happened alone, not
 * by when this was asked: a server that stood still an hour goes on where it would be, and tells whoever was passed
 * over. A step passes to the next after `undeliveredMinutes` where nothing was delivered to any of its people, else after
 * `unacknowledgedMinutes`, and at once when nobody of it is on (any more). The last one is taken again and again; where
 * nobody is on for it, those of the last order of the duty are told, on or not. An acknowledgement ends the telling and
 * changes nothing of what is listed. So a failure never makes a step later (`tests/domain/escalation`).
 */
export function decideEscalation(
  question: EscalationQuestion,
  steps: readonly EscalationStep[],
  roster: Roster,
): EscalationDecision {
  assert(steps.length > 0, `an escalation of ${question.duty} has a step`)
  const { nowEpochMs, fromEpochMs, acknowledgedAtEpochMs } = question
  const acknowledged = acknowledgedAtEpochMs !== null && acknowledgedAtEpochMs <= nowEpochMs
  const { begun, next } = takeSteps(question, steps, roster)
  const findings = begun.flatMap((taken) => findingOf(taken, taken.step === steps.length))
  if (acknowledged || nowEpochMs < fromEpochMs)
    return { tell: [], begun, next: acknowledged ? null : next, findings }

  const tell = new Map<string, ToTell>()
  let handoverEpochMs = Number.POSITIVE_INFINITY
  for (const taken of begun) {
    const step = steps[taken.step - 1] as EscalationStep
    const people = peopleToTell(roster, question.duty, step, taken, nowEpochMs, taken.step === steps.length)
    for (const { contact, ways, untilEpochMs } of people) {
      if (untilEpochMs > nowEpochMs) handoverEpochMs = Math.min(handoverEpochMs, untilEpochMs)
      for (const way of ways) {
        const key = `${contact} ${wayText(way)}`
        const tried = question.attempts.some(
          (attempt) =>
            attempt.contact === contact &&
            attempt.way === wayText(way) &&
            attempt.atEpochMs >= taken.atEpochMs &&
            attempt.atEpochMs <= nowEpochMs,
        )
        // A later step that means the same person decides.
        tell.delete(key)
        if (!tried) tell.set(key, { contact, way, step: taken.step, round: taken.round })
      }
    }
  }
  const first = next.atEpochMs <= handoverEpochMs
  return {
    tell: [...tell.values()],
    begun,
    next: first ? next : { atEpochMs: handoverEpochMs, because: 'handover' },
    findings,
  }
}

/** Whom a step that was taken means by now: who is on, failing that who was on when it was taken. */
function peopleToTell(
  roster: Roster,
  duty: string,
  step: EscalationStep,
  taken: BegunStep,
  nowEpochMs: number,
  isLast: boolean,
): readonly StepPerson[] {
  const now = peopleOnStep(roster, step, nowEpochMs)
  if (now.length > 0) return now
  const then = peopleOnStep(roster, step, taken.atEpochMs)
  if (then.length > 0 || !isLast) return then
  return lastResort(roster, duty, step, nowEpochMs)
}

function lastResort(
  roster: Roster,
  duty: string,
  step: EscalationStep,
  atEpochMs: number,
): readonly StepPerson[] {
  const own = peopleOfLastOrder(roster, duty, atEpochMs)
  return own.length > 0 ? own : peopleOfLastOrder(roster, step.duty, atEpochMs)
}

function takeSteps(
  { duty, fromEpochMs, attempts, acknowledgedAtEpochMs, nowEpochMs }: EscalationQuestion,
  steps: readonly EscalationStep[],
  roster: Roster,
): { begun: readonly BegunStep[]; next: { atEpochMs: number; because: StepReason } } {
  const endEpochMs = Math.min(nowEpochMs, acknowledgedAtEpochMs ?? nowEpochMs)
  const delivered = attempts.filter(
    ({ outcome, atEpochMs }) =>
      outcome === 'delivered' && atEpochMs >= fromEpochMs && atEpochMs <= endEpochMs,
  )
  const firstDelivery = steps.map((step) => {
    const people = everOnStep(roster, step)
    return Math.min(...delivered.filter(({ contact }) => people.has(contact)).map((one) => one.atEpochMs))
  })
  const begun: BegunStep[] = []
  let next: { atEpochMs: number; because: StepReason } = { atEpochMs: fromEpochMs, because: 'raised' }
  let [place, round] = [0, 1]
  while (next.atEpochMs <= endEpochMs) {
    const step = steps[place] as EscalationStep
    const isLast = place === steps.length - 1
    const { atEpochMs } = next
    const taken = { step: place + 1, round, duty: step.duty, order: step.order, ...next }
    const reached = (firstDelivery[place] ?? Infinity) <= atEpochMs + step.undeliveredMinutes * minuteMs
    const waits = reached
      ? step.unacknowledgedMinutes
      : Math.min(step.undeliveredMinutes, step.unacknowledgedMinutes)
    const waited: typeof next = {
      atEpochMs: atEpochMs + waits * minuteMs,
      because: reached ? 'not-acknowledged' : 'not-delivered',
    }
    if (isLast) {
      // Only the newest round is kept: after weeks there are thousands.
      if (round > 1) begun.pop()
      begun.push({ ...taken, people: [] })
      next = waited
      round++
      continue
    }
    const people = peopleOnStep(roster, step, atEpochMs)
    begun.push({ ...taken, people: people.map(({ contact }) => contact) })
    const hole = firstHole(roster, step, atEpochMs, waited.atEpochMs)
    next = hole < waited.atEpochMs ? { atEpochMs: hole, because: 'nobody-on' } : waited
    place++
  }
  const last = begun.at(-1)
  if (last?.step === steps.length) {
    const step = steps[steps.length - 1] as EscalationStep
    const on = peopleOnStep(roster, step, last.atEpochMs)
    const people = on.length > 0 ? on : lastResort(roster, duty, step, last.atEpochMs)
    begun[begun.length - 1] = { ...last, people: people.map(({ contact }) => contact) }
  }
  return { begun, next }
}

/** First instant from which on nobody of a step is on, up to a limit; the limit where there is none before it. */
function firstHole(roster: Roster, step: EscalationStep, fromEpochMs: number, limitEpochMs: number): number {
  let at = fromEpochMs
  while (at < limitEpochMs) {
    const people = peopleOnStep(roster, step, at)
    if (people.length === 0) return at
    at = Math.max(...people.map(({ untilEpochMs }) => untilEpochMs))
  }
  return limitEpochMs
}

function findingOf(
  { step, duty, order, atEpochMs, people }: BegunStep,
  isLast: boolean,
): EscalationFinding[] {
  if (people.length > 0) return []
  const who = order === null ? duty : `${duty}, order ${order},`
  return [
    {
      code: isLast ? 'duty-unreachable' : 'nobody-on-duty',
      duty,
      step,
      atEpochMs,
      message: isLast
        ? `Nobody can be told: no contact of ${duty} can be reached in any way. Add a contact and a shift to the roster, and tell somebody by other means now.`
        : `Nobody was on for ${who} when they were needed; the next step was taken at once. Close the hole in the roster.`,
    },
  ]
}
