import type { AlertsDocument, ListedAlert } from '#contract/alerts.ts'
import type { AlertState } from '#domain/alerts/alert.ts'
import { sinceEpochMs } from './response-state.ts'

/** How far back closed alerts are in the list: whatever was closed longer ago is not. */
export const closedListedMs = 90 * 86_400_000

/**
 * The alerts of a list as they stood at an earlier instant, as far as the list tells: steps that a reopening set aside,
 * and when readings began to speak against an alert, stand in its record only. `asIfEvaluated`: they count as raised with
 * the reading that made them hold; invented data is all evaluated at one instant, when it is taken in.
 */
export const alertsAsOf = (
  alerts: readonly ListedAlert[],
  atEpochMs: number,
  asIfEvaluated = false,
): readonly ListedAlert[] =>
  alerts.flatMap((alert) => {
    const knownAtEpochMs = alert.episode?.knownAtEpochMs ?? null
    const isEarlier = asIfEvaluated && knownAtEpochMs !== null && knownAtEpochMs < alert.raisedAtEpochMs
    return alertAsOf(isEarlier ? { ...alert, raisedAtEpochMs: knownAtEpochMs } : alert, atEpochMs) ?? []
  })

/** Whether alerts that were open at an instant may have left the list since. */
export const mayLackAlerts = ({ asOfEpochMs }: Pick<AlertsDocument, 'asOfEpochMs'>, atEpochMs: number) =>
  atEpochMs < asOfEpochMs - closedListedMs

function alertAsOf(alert: ListedAlert, atEpochMs: number): ListedAlert | null {
  if (Math.max(alert.raisedAtEpochMs, sinceEpochMs(alert)) > atEpochMs) return null
  const known = <Step extends { readonly atEpochMs: number }>(step: Step | null): Step | null =>
    step !== null && step.atEpochMs <= atEpochMs ? step : null
  const [acknowledged, verified, closed] = [
    known(alert.acknowledged),
    known(alert.verified),
    known(alert.closed),
  ]
  const attempts = alert.attempts?.filter((attempt) => attempt.atEpochMs <= atEpochMs) ?? null
  const isDelivered = attempts?.some(({ outcome }) => outcome === 'delivered') ?? alert.state !== 'raised'
  const state: AlertState = closed
    ? 'closed'
    : verified
      ? 'verified'
      : acknowledged
        ? 'acknowledged'
        : isDelivered
          ? 'delivered'
          : 'raised'
  const left = alert.episode?.leftAtEpochMs ?? null
  return {
    ...alert,
    state,
    acknowledged,
    verified,
    closed,
    attempts,
    unreachableSinceEpochMs:
      alert.unreachableSinceEpochMs !== null && alert.unreachableSinceEpochMs <= atEpochMs
        ? alert.unreachableSinceEpochMs
        : null,
    episode:
      alert.episode && left !== null && left > atEpochMs
        ? { ...alert.episode, leftAtEpochMs: null, leftBecause: null }
        : alert.episode,
  }
}
