import type { AlertWay } from '#domain/alerts/alert-event.ts'
import { groupBy } from '#domain/group-by.ts'
import type { Store } from '../store/store.ts'
import type { Alerts } from './alerts.ts'
import { alertRecord, alertsDocument } from './alerts-document.ts'
import { capAlertsOf } from './cap-alerts.ts'
import type { createKnownSites } from './create-known-sites.ts'
import { type LevelEvaluation, withPeak } from './levels-standing.ts'
import type { SiteAlerts } from './site-alerts.ts'
import { statisticsDocument } from './statistics-document.ts'

/** What is read of alerts: never changes any. */
export function createAlertDocuments({
  store,
  evaluation,
  known,
  refresh,
  now,
  waysSetUp,
}: {
  readonly store: Store
  readonly evaluation: LevelEvaluation
  readonly known: ReturnType<typeof createKnownSites>
  /** Reads what was recorded since. */
  readonly refresh: (site: string) => Promise<SiteAlerts>
  readonly now: () => number
  readonly waysSetUp: readonly AlertWay[]
}): Pick<Alerts, 'record' | 'document' | 'evaluated' | 'alerts' | 'statistics' | 'capAlerts'> {
  async function waysOf(site: string): Promise<readonly AlertWay[]> {
    const hasWebhook = (await store.listWebhooks(site)).some((one) => one.disabledAtEpochMs === null)
    return waysSetUp.filter((way) => way !== 'webhook' || hasWebhook)
  }

  return {
    async record(site, alert) {
      const about = await known(site)
      if (!about) return null
      const one = await refresh(site)
      const found = one.alerts.get(alert)
      if (!found) return null
      const standing = await evaluation.standing(site)
      return alertRecord(withPeak(found, standing), await one.eventsOf(alert), about.model)
    },

    async document(site, mayReadAll) {
      const about = await known(site)
      if (!about) return null
      const { alerts, latest } = await refresh(site)
      const source = {
        model: about.model,
        alerts,
        latest,
        standing: await evaluation.standing(site),
        ways: await waysOf(site),
        asOfEpochMs: about.model.facts.presentEpochMs ?? now(),
        nowEpochMs: now(),
      }
      return alertsDocument(source, mayReadAll)
    },

    evaluated: async (site, asOfEpochMs) => ({
      standing: await evaluation.standing(site, asOfEpochMs),
      ways: await waysOf(site),
    }),

    alerts: async (site) => [...(await refresh(site)).alerts.values()],

    async statistics(site) {
      const about = await known(site)
      if (!about) return null
      const { alerts } = await refresh(site)
      return statisticsDocument(about.model, [...alerts.values()], about.model.facts.presentEpochMs ?? now())
    },

    async capAlerts(site, from, alert) {
      const about = await known(site)
      if (!about) return null
      const source = { ...from, model: about.model, series: about.series }
      if (alert !== undefined) return capAlertsOf(await (await refresh(site)).eventsOf(alert), source)
      const events = groupBy(await store.listAlertEvents(site, 0), (event) => event.alert)
      return [...events.values()].flatMap((ofAlert) => capAlertsOf(ofAlert, source).at(-1) ?? [])
    },
  }
}
