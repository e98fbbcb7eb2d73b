import type { AlertRecord } from '#contract/alerts.ts'
import { takeAction } from '#domain/alerts/alert-actions.ts'
import type { Actor } from '#domain/audit/audit-entry.ts'
import { accept, reject } from '#domain/outcome.ts'
import { dutiesOf } from '#domain/roster/on-duty.ts'
import type { Store, StoredAlertEvent } from '../store/store.ts'
import { VersionConflict } from '../store/version-conflict.ts'
import type { Alerts } from './alerts.ts'
import type { createKnownSites } from './create-known-sites.ts'
import type { SiteAlerts } from './site-alerts.ts'

/** What people do to alerts: steps of a response, and drills. */
export function createAlertSteps({
  store,
  known,
  refresh,
  now,
  record,
  tell,
}: {
  readonly store: Store
  readonly known: ReturnType<typeof createKnownSites>
  /** Reads what was recorded since. */
  readonly refresh: (site: string) => Promise<SiteAlerts>
  readonly now: () => number
  readonly record: Alerts['record']
  /** Decides and sends what is due at a site. */
  readonly tell: (site: string) => void
}): Pick<Alerts, 'step' | 'drill'> {
  return {
    async step(site, number, action, by, latest) {
      const about = await known(site)
      const one = await refresh(site)
      const alert = one.alerts.get(number)
      if (!about || !alert) return { kind: 'unknown' }
      const since = async () =>
        (await one.eventsOf(number)).filter((event) => event.number > latest && event.by !== null)
      const meanwhile = await since()
      if (meanwhile.length > 0) return { kind: 'conflict', since: meanwhile }
      const happening = takeAction(alert, action)
      if (!happening.ok) return { kind: 'refused', issues: happening.issues }
      // What is measured at an invented site has a present of its own.
      const present = alert.cause.kind === 'drill' ? null : about.model.facts.presentEpochMs
      const event = {
        alert: number,
        atEpochMs: present ?? now(),
        ...signedBy(by),
        happening: happening.value,
      }
      try {
        await store.appendAlertEvents(site, [event], { alert: number, number: latest })
      } catch (failure) {
        if (!(failure instanceof VersionConflict)) throw failure
        await refresh(site)
        return { kind: 'conflict', since: await since() }
      }
      const after = (await record(site, number)) as AlertRecord
      tell(site)
      return { kind: 'taken', record: after }
    },

    async drill(site, duty, reason, by) {
      const about = await known(site)
      if (!about || !dutiesOf(about.model).includes(duty))
        return reject({
          code: 'duty-unknown',
          column: 'duty',
          value: duty,
          message: `Nobody is on for "${duty}" at this site, and no level names it. Choose a duty of the roster.`,
        })
      const cause = { kind: 'drill', duty, reason: reason.trim() } as const
      const happening = { kind: 'raised', cause, late: false, untoldBecause: null } as const
      const event = { alert: null, atEpochMs: now(), ...signedBy(by), happening }
      const [raised] = await store.appendAlertEvents(site, [event])
      const after = (await record(site, (raised as StoredAlertEvent).alert)) as AlertRecord
      tell(site)
      return accept(after)
    },
  }
}

const signedBy = ({ account, name }: Actor) => ({ by: name, account })
