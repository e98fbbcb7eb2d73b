import type { Alert } from '#domain/alerts/alert.ts'
import { silentWatched } from '#domain/alerts/silent-watched.ts'
import type { Store } from '../store/store.ts'
import { composeMessage, recipientOf } from './compose-message.ts'
import type { createKnownSites } from './create-known-sites.ts'
import type { Parcel } from './gather-parcels.ts'
import { type LevelEvaluation, withPeak } from './levels-standing.ts'
import type { SiteAlerts } from './site-alerts.ts'

/** Puts a parcel into words, with what is known of its alerts and of its site when it is sent. */
export function createComposer({
  store,
  evaluation,
  known,
  alertsOf,
}: {
  readonly store: Store
  readonly evaluation: LevelEvaluation
  readonly known: ReturnType<typeof createKnownSites>
  /** As they were read last. */
  readonly alertsOf: (site: string) => SiteAlerts['alerts']
}) {
  return async function compose(parcel: Parcel) {
    const about = await known(parcel.site)
    if (!about) throw new Error(`There is no site "${parcel.site}" any more.`)
    const { facts, contacts } = about.model
    const standing = await evaluation.standing(parcel.site).catch(() => null)
    const isKnown = standing !== null && standing.evaluation.failure === null
    const silent = isKnown ? silentWatched(standing) : null
    const alerts = alertsOf(parcel.site)
    const shown = (alert: Alert) => (standing ? withPeak(alert, standing) : alert)
    return {
      message: composeMessage(parcel, alerts, shown, about.series, { facts, silent }),
      to: await recipientOf(parcel, contacts, store),
    }
  }
}
