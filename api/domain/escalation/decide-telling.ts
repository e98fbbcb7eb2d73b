import type { SiteModel } from '../site/site.ts'
import { type AlertSubject, type StandingSuppression, sendingOf, withEnds } from '../suppression/held-back.ts'
import { decideEscalation, type EscalationDecision, type TellingAttempt } from './decide-escalation.ts'
import { escalationSteps } from './escalation-steps.ts'

/** An alert as far as telling people of it asks. */
export interface AlertToTell {
  readonly subject: AlertSubject
  /** Owner of its level, or whoever is to look after silence. */
  readonly duty: string
  readonly raisedAtEpochMs: number
  readonly acknowledgedAtEpochMs: number | null
  /** In any order, of any time. */
  readonly attempts: readonly TellingAttempt[]
}

export interface TellingDecision extends EscalationDecision {
  /** What holds it back now; then nobody is told, and `next` is when sending goes on. Empty: it is sent. */
  readonly heldBy: readonly StandingSuppression[]
}

/** Who is to be told of an alert now by the records of its site, what follows, and what is missing for it. */
export function decideTelling(
  site: Pick<
    SiteModel,
    'contacts' | 'dutyShifts' | 'holidays' | 'escalations' | 'suppressions' | 'suppressionEnds'
  >,
  { subject, raisedAtEpochMs, ...alert }: AlertToTell,
  nowEpochMs: number,
): TellingDecision {
  const suppressions = withEnds(site.suppressions, site.suppressionEnds)
  const { heldBy, fromEpochMs } = sendingOf(subject, suppressions, raisedAtEpochMs, nowEpochMs)
  const steps = escalationSteps(alert.duty, site.escalations, site.dutyShifts)
  return { ...decideEscalation({ ...alert, fromEpochMs, nowEpochMs }, steps, site), heldBy }
}
