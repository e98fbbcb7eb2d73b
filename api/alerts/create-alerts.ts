import type { AlertWay } from '#domain/alerts/alert-event.ts'
import type { NewAlertEvent, Store } from '../store/store.ts'
import { wordsOfFailure } from '../words-of-failure.ts'
import type { Alerts } from './alerts.ts'
import { createAlertDocuments } from './create-alert-documents.ts'
import { createAlertSteps } from './create-alert-steps.ts'
import { createComposer } from './create-composer.ts'
import { createKnownSites } from './create-known-sites.ts'
import { createTeller } from './create-teller.ts'
import type { DeliveryWay } from './delivery/delivery-way.ts'
import { createDueFinder, isTellable } from './find-due.ts'
import { gatherParcels } from './gather-parcels.ts'
import type { LevelEvaluation } from './levels-standing.ts'
import { createListeners } from './listeners.ts'
import { createSiteAlerts, type SiteAlerts } from './site-alerts.ts'

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

/** Alerts of all sites: levels are evaluated as readings arrive, and whom it concerns is told. */
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
    compose: createComposer({ store, evaluation, known, alertsOf: (site) => siteAlerts(site).alerts }),
    record: async (site, events) => {
      await store.appendAlertEvents(site, events)
      await refresh(site)
    },
    onDone: (site) => tell(site),
    report,
  })

  const source = { store, evaluation, known, refresh, now }
  const documents = createAlertDocuments({ ...source, waysSetUp })
  const steps = createAlertSteps({ ...source, record: documents.record, tell })

  const siteAlerts = (site: string): SiteAlerts => {
    const one = opened.get(site) ?? createSiteAlerts(store, site)
    opened.set(site, one)
    return one
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

  return {
    ...documents,
    ...steps,
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
