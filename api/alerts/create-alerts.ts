import type { AlertRecord } from '#contract/alerts.ts'
import type { Alert } from '#domain/alerts/alert.ts'
import { takeAction } from '#domain/alerts/alert-actions.ts'
import type { AlertWay } from '#domain/alerts/alert-event.ts'
import { silentWatched } from '#domain/alerts/silent-watched.ts'
import type { Actor } from '#domain/audit/audit-entry.ts'
import { groupBy } from '#domain/group-by.ts'
import { accept, reject } from '#domain/outcome.ts'
import { dutiesOf } from '#domain/roster/on-duty.ts'
import type { NewAlertEvent, Store, StoredAlertEvent } from '../store/store.ts'
import { VersionConflict } from '../store/version-conflict.ts'
import { wordsOfFailure } from '../words-of-failure.ts'
import type { Alerts } from './alerts.ts'
import { alertRecord, alertsDocument } from './alerts-document.ts'
import { capAlertsOf } from './cap-alerts.ts'
import { composeMessage, recipientOf } from './compose-message.ts'
import { createKnownSites } from './create-known-sites.ts'
import { createTeller } from './create-teller.ts'
import type { DeliveryWay } from './delivery/delivery-way.ts'
import { createDueFinder, isTellable } from './find-due.ts'
import { gatherParcels, type Parcel } from './gather-parcels.ts'
import { type LevelEvaluation, withPeak } from './levels-standing.ts'
import { createListeners } from './listeners.ts'
import { createSiteAlerts, type SiteAlerts } from './site-alerts.ts'
import { statisticsDocument } from './statistics-document.ts'

export interface AlertsDependencies {
  readonly store: Store
  /** Made with what is to be called whenever it recorded events. */
  readonly evaluation: (onRecorded: (site: string) => void) => LevelEvaluation
  readonly ways: readonly DeliveryWay[]
  /** Of these, the ones that are set up here; webhooks are, where a site has one. */
  readonly waysSetUp: readonly AlertWay[]
  readonly now: () => number
  readonly random: () => number
  readonly report: (line: string) => void
}

export function createAlerts(dependencies: AlertsDependencies): Alerts {
  const { store, ways, waysSetUp, now, report } = dependencies
  const listeners = createListeners(report)
  const opened = new Map<string, SiteAlerts>()
  const passes = new Map<string, Promise<void>>()
  const again = new Set<string>()
  const evaluating = new Set<Promise<void>>()
  const known = createKnownSites(store)
  const findDue = createDueFinder(report)
  let closed = false

  const evaluation = dependencies.evaluation((site) => tell(site))
  const teller = createTeller({
    ways,
    now,
    random: dependencies.random,
    compose,
    record: async (site, events) => {
      await store.appendAlertEvents(site, events)
      await refresh(site)
    },
    onDone: (site) => tell(site),
    report,
  })

  const siteAlerts = (site: string): SiteAlerts => {
    const one = opened.get(site) ?? createSiteAlerts(store, site)
    opened.set(site, one)
    return one
  }

  async function waysOf(site: string): Promise<readonly AlertWay[]> {
    const hasWebhook = (await store.listWebhooks(site)).some((one) => one.disabledAtEpochMs === null)
    return waysSetUp.filter((way) => way !== 'webhook' || hasWebhook)
  }

  /** Reads what was recorded, by whomever, and tells those who listen. */
  async function refresh(site: string): Promise<SiteAlerts> {
    const one = siteAlerts(site)
    const events = await one.refresh()
    if (events.length > 0) {
      const raised = events.filter(({ happening }) => happening.kind === 'raised').map(({ alert }) => alert)
      listeners.tell(site, { kind: 'alerts', latest: one.latest, raised })
    }
    return one
  }

  /** Decides and sends what is due at a site; asked for meanwhile, once more after that. */
  function tell(site: string): void {
    if (closed) return
    if (passes.has(site)) {
      again.add(site)
      return
    }
    const pass = decideAndSend(site)
      .catch((failure) => report(`${site}: telling people failed: ${wordsOfFailure(failure)}`))
      .finally(() => {
        passes.delete(site)
        if (again.delete(site)) tell(site)
      })
    passes.set(site, pass)
  }

  async function decideAndSend(site: string): Promise<void> {
    await teller.recordAgain(site)
    const { alerts } = await refresh(site)
    // Whatever arrives is said here; where nobody waits for word the records are not even asked for.
    if (![...alerts.values()].some(isTellable)) return
    const about = await known(site)
    if (!about) return
    const atEpochMs = now()
    const { due, events } = findDue(alerts.values(), about, teller.underWay(site), atEpochMs)
    // People are told also where that cannot be written down.
    await appendAndRefresh(site, events).catch((failure) =>
      report(`${site}: steps of telling people could not be recorded: ${wordsOfFailure(failure)}`),
    )
    if (closed) return
    teller.send(
      gatherParcels(site, due, (contact, way) => teller.lastSentAtEpochMs(site, contact, way), atEpochMs),
    )
  }

  async function appendAndRefresh(site: string, events: readonly NewAlertEvent[]): Promise<void> {
    if (events.length === 0) return
    await store.appendAlertEvents(site, events)
    await refresh(site)
  }

  async function compose(parcel: Parcel) {
    const about = await known(parcel.site)
    if (!about) throw new Error(`There is no site "${parcel.site}" any more.`)
    const { facts, contacts } = about.model
    const standing = await evaluation.standing(parcel.site).catch(() => null)
    const isKnown = standing !== null && standing.evaluation.failure === null
    const silent = isKnown ? silentWatched(standing) : null
    const { alerts } = siteAlerts(parcel.site)
    const shown = (alert: Alert) => (standing ? withPeak(alert, standing) : alert)
    return {
      message: composeMessage(parcel, alerts, shown, about.series, { facts, silent }),
      to: await recipientOf(parcel, contacts, store),
    }
  }

  async function record(site: string, alert: number): Promise<AlertRecord | null> {
    const about = await known(site)
    if (!about) return null
    const one = await refresh(site)
    const found = one.alerts.get(alert)
    if (!found) return null
    const standing = await evaluation.standing(site)
    return alertRecord(withPeak(found, standing), await one.eventsOf(alert), about.model)
  }

  return {
    record,
    listen: listeners.listen,

    arrived(site) {
      if (closed) return Promise.resolve()
      const task = evaluation
        .arrived(site)
        .catch((failure) => report(`${site}: levels were not evaluated: ${wordsOfFailure(failure)}`))
        .finally(() => {
          evaluating.delete(task)
          tell(site)
        })
      evaluating.add(task)
      return task
    },

    published: (site, revision) => listeners.tell(site, { kind: 'published', revision }),

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

    async tick() {
      // Telling waits for no evaluation: what stands still there must not hold up an escalation.
      const evaluated = evaluation
        .tick()
        .catch((failure) => report(`Levels were not evaluated: ${wordsOfFailure(failure)}`))
      try {
        for (const { id } of await store.listSites()) tell(id)
      } catch (failure) {
        report(`Telling people failed: ${wordsOfFailure(failure)}`)
      }
      await evaluated
    },

    async settled() {
      do {
        await Promise.allSettled([...evaluating, ...passes.values()])
        await teller.settled()
      } while (evaluating.size + passes.size > 0)
    },

    async close() {
      closed = true
      await evaluation.close()
      await Promise.allSettled(evaluating)
      await teller.close()
      await Promise.allSettled(passes.values())
    },
  }
}

const signedBy = ({ account, name }: Actor) => ({ by: name, account })
