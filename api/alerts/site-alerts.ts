import { type Alert, afterEvent, alertOf } from '#domain/alerts/alert.ts'
import type { Store, StoredAlertEvent } from '../store/store.ts'

/** The alerts of a site as the events recorded so far make them. The store is the truth: whoever recorded one, it is read. */
export interface SiteAlerts {
  readonly alerts: ReadonlyMap<number, Alert>
  /** Number of the last event that is in them; 0: none. */
  readonly latest: number
  /** Reads what was recorded meanwhile and gives it, in order; each event is given once. */
  refresh(): Promise<readonly StoredAlertEvent[]>
  /** Everything that happened to one alert. */
  eventsOf(alert: number): Promise<readonly StoredAlertEvent[]>
}

export function createSiteAlerts(store: Pick<Store, 'listAlertEvents'>, site: string): SiteAlerts {
  const alerts = new Map<number, Alert>()
  const raisedBy = new Map<number, number>()
  let latest = 0
  let reading: Promise<unknown> = Promise.resolve()

  const take = (event: StoredAlertEvent): void => {
    const known = alerts.get(event.alert)
    if (!known) raisedBy.set(event.alert, event.number)
    alerts.set(event.alert, known ? afterEvent(known, event) : alertOf([event]))
    latest = event.number
  }

  return {
    alerts,
    get latest() {
      return latest
    },
    refresh() {
      const next = reading
        .catch(() => undefined)
        .then(async () => {
          const events = await store.listAlertEvents(site, latest)
          for (const event of events) take(event)
          return events
        })
      reading = next
      return next
    },
    async eventsOf(alert) {
      const first = raisedBy.get(alert)
      if (first === undefined) return []
      const events = await store.listAlertEvents(site, first - 1)
      return events.filter((event) => event.alert === alert)
    },
  }
}
