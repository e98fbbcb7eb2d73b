import type { ListedAlert } from '#contract/alerts.ts'
import {
  levelOfAlert,
  type ResponseState,
  responseOf,
  responseStates,
  sinceEpochMs,
  stillReached,
} from './response-state.ts'

export interface AlertGroup {
  readonly response: ResponseState
  /** What presses most first. */
  readonly alerts: readonly ListedAlert[]
}

/**
 * Alerts by how far the response is, those that nobody took up first; empty groups too, so that each can be said to
 * be empty. Within one: not reachable, still reached, higher levels and older ones first; closed ones last closed first.
 */
export function alertGroups(alerts: readonly ListedAlert[]): readonly AlertGroup[] {
  return responseStates.map((response) => ({
    response,
    alerts: alerts
      .filter((alert) => responseOf(alert) === response)
      .sort(response === 'closed' ? byClosing : byUrgency),
  }))
}

/** How many alerts nobody has taken up. */
export const needSomebody = (alerts: readonly ListedAlert[]): number =>
  alerts.filter((alert) => responseOf(alert) === 'nobody').length

export function byUrgency(one: ListedAlert, other: ListedAlert): number {
  const [left, right] = [urgencyOf(one), urgencyOf(other)]
  const place = left.findIndex((part, index) => part !== right[index])
  return place < 0 ? one.alert - other.alert : (right[place] ?? 0) - (left[place] ?? 0)
}

const urgencyOf = (alert: ListedAlert): readonly number[] => [
  alert.bornOut ? 1 : 0,
  alert.unreachableSinceEpochMs === null ? 0 : 1,
  stillReached(alert) === true ? 1 : 0,
  levelOfAlert(alert),
  -sinceEpochMs(alert),
]

/** The last closed first. */
export const byClosing = (one: ListedAlert, other: ListedAlert) =>
  (other.closed?.atEpochMs ?? 0) - (one.closed?.atEpochMs ?? 0) || other.alert - one.alert
