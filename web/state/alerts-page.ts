import { createSignal } from 'solid-js'

/** Pages of alerts and responses, in the order in which they are offered. */
export const alertsPages = ['list', 'duties', 'ways', 'statistics', 'drills'] as const
export type AlertsPage = (typeof alertsPages)[number]

export const firstAlertsPage: AlertsPage = 'list'

const [alertsPage, setAlertsPage] = createSignal<AlertsPage>(firstAlertsPage)
const [openedAlert, setOpenedAlert] = createSignal<number | null>(null)

export {
  alertsPage,
  /** Number of the alert whose record is open; null: the page is. */
  openedAlert,
}

export function openAlertsPage(page: AlertsPage): void {
  setOpenedAlert(null)
  setAlertsPage(page)
}

/** Opens the record of an alert over the page; null: leaves it. */
export function openAlert(alert: number | null): void {
  setOpenedAlert(alert)
}
