import { createMemo, createRoot } from 'solid-js'
import type { ListedAlert } from '#contract/alerts.ts'
import { byUrgency } from '../derived/alerts/alert-groups.ts'
import { type AlertMark, alertMarks, placedAlerts, unshownAlerts } from '../derived/alerts/alert-marks.ts'
import { alertsAtClock } from './alerts.ts'
import { shownSymbols } from './plan-symbols.ts'
import { selectedInstrument, selectedPoint } from './selection.ts'

const none: readonly AlertMark[] = []

/** Frames on the plan at the site clock; empty where no alerts are known, which the banner says. */
export const alertMarksShown = createRoot(() =>
  createMemo((): readonly AlertMark[] => {
    const known = alertsAtClock()
    const marks = known ? alertMarks(shownSymbols(), known.alerts, known.atEpochMs) : none
    return marks.length === 0 ? none : marks
  }),
)

/** Open alerts at the site clock whose point the plan does not show. */
export const alertsUnshown = createRoot(() =>
  createMemo((): readonly ListedAlert[] => unshownAlerts(shownSymbols(), alertsAtClock()?.alerts ?? [])),
)

/** Open alerts of the selection at the site clock, what presses most first; null: not known. */
export const selectedAlerts = createRoot(() =>
  createMemo((): readonly ListedAlert[] | null => {
    const known = alertsAtClock()
    const instrument = selectedInstrument()
    if (!known || !instrument) return null
    const point = selectedPoint()
    const names = point ? [point.id] : [instrument.id, ...instrument.points]
    return placedAlerts(known.alerts)
      .filter((alert) => names.includes(alert.point ?? ''))
      .sort(byUrgency)
  }),
)
