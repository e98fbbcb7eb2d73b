import type { ListedAlert } from '#contract/alerts.ts'
import { type DrawnResponse, drawnResponses } from '../../ui/alert-mark.ts'
import { formatAge } from '../../ui/format-instant.ts'
import type { PlanSymbol } from '../plan-symbols.ts'
import { byUrgency } from './alert-groups.ts'
import { isOpen, responseOf, sinceEpochMs } from './response-state.ts'

/** The frame round a symbol whose points have open alerts. */
export interface AlertMark {
  /** Of the symbol. */
  readonly id: string
  readonly longitude: number
  readonly latitude: number
  /** Of the alert that people are least far with. */
  readonly response: DrawnResponse
  /** All open ones, what presses most first. */
  readonly alerts: readonly ListedAlert[]
  /** How long the oldest of those that people are least far with has been so; with their number where there are several. */
  readonly label: string
}

/** Open alerts that are about a place: a drill is not. */
export const placedAlerts = (alerts: readonly ListedAlert[]): readonly ListedAlert[] =>
  alerts.filter((alert) => isOpen(alert) && alert.point !== null)

/** Frames of the symbols that have open alerts; what is made from a whole instrument counts for all its symbols. */
export function alertMarks(
  symbols: readonly PlanSymbol[],
  alerts: readonly ListedAlert[],
  atEpochMs: number,
): readonly AlertMark[] {
  const placed = placedAlerts(alerts)
  if (placed.length === 0) return []
  return symbols.flatMap((symbol) => {
    const here = placed.filter((alert) => isOf(symbol, alert)).sort(byUrgency)
    const response = drawnResponses.find((one) => here.some((alert) => responseOf(alert) === one))
    if (response === undefined) return []
    const since = here.filter((alert) => responseOf(alert) === response).map(sinceEpochMs)
    const age = formatAge(atEpochMs - Math.min(...since))
    const { id, longitude, latitude } = symbol
    return {
      id,
      longitude,
      latitude,
      response,
      alerts: here,
      label: here.length === 1 ? age : `${here.length}: ${age}`,
    }
  })
}

/** Open alerts that no symbol shows: filters hide it, or its point is out of use. They are not to be forgotten by that. */
export const unshownAlerts = (symbols: readonly PlanSymbol[], alerts: readonly ListedAlert[]) =>
  placedAlerts(alerts).filter((alert) => !symbols.some((symbol) => isOf(symbol, alert)))

export const isOf = (
  { points, instrument }: Pick<PlanSymbol, 'points' | 'instrument'>,
  { point }: Pick<ListedAlert, 'point'>,
): boolean => point !== null && (points.includes(point) || instrument === point)
