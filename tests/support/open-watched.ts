import { join } from 'node:path'
import { alertsOf } from '#domain/alerts/alert.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { createEvaluator, type Evaluator } from '../../api/alerts/evaluator.ts'
import type { Store, StoredAlertEvent } from '../../api/store/store.ts'
import { type OpenIntake, oneChunk, openIntake } from './open-intake.ts'
import { receivedLayout, type WatchedRow, watchedFile, watchedSite } from './watched-site.ts'

const signature = { author: 'tester', reason: 'test', atEpochMs: 0 }

/** A watched site in a store that others share, with an evaluator of its own. */
export interface WatchedSite {
  readonly site: string
  readonly store: Store
  readonly heard: StoredAlertEvent[]
  readonly failures: string[]
  /** Takes rows as a file; its receipts stand in it. */
  take(rows: readonly WatchedRow[]): Promise<void>
  /** Evaluates everything that is here. */
  evaluate(): Promise<void>
  /** The evaluator is gone as by a kill, or closed; the next evaluation begins with another on the same store. */
  restart(how: 'killed' | 'closed'): Promise<void>
  change(next: SiteModel): Promise<void>
  evaluator(): Evaluator
  alerts(): Promise<ReturnType<typeof alertsOf>>
  /** What is borne out: level, first crossing, when held and left. */
  borneOut(): Promise<readonly string[]>
}

export interface OpenWatched extends OpenIntake {
  watch(model?: SiteModel, options?: { store?: Store; now?: () => number }): Promise<WatchedSite>
}

/** One real store and intake for any number of watched sites. */
export async function openWatched(presentEpochMs: () => number): Promise<OpenWatched> {
  const opened = await openIntake({ presentEpochMs })
  let count = 0
  return {
    ...opened,
    async watch(given = watchedSite(), { store = opened.store, now = presentEpochMs } = {}) {
      count += 1
      const site = `watched-${count}`
      const named = (model: SiteModel): SiteModel => ({ ...model, facts: { ...model.facts, id: site } })
      await opened.store.putSite(named(given), signature)
      await opened.store.putLayout(site, receivedLayout, signature)
      const heard: StoredAlertEvent[] = []
      const failures: string[] = []
      const begin = () =>
        createEvaluator({
          store,
          folder: join(opened.folder, 'alerts'),
          now,
          gatherMs: 0,
          onEvents: (_, events) => heard.push(...events),
          onFailure: (_, failure) => failures.push(String(failure)),
        })
      let evaluator = begin()
      let files = 0
      const alerts = async () => alertsOf(await opened.store.listAlertEvents(site, 0))
      return {
        site,
        store: opened.store,
        heard,
        failures,
        alerts,
        evaluator: () => evaluator,
        async take(rows) {
          files += 1
          const { outcome, message } = await opened.intake.takeFile({
            site,
            fileName: `watched-${files}.csv`,
            bytes: oneChunk(new TextEncoder().encode(watchedFile(rows))),
            from: 'test',
            receivedAtEpochMs: presentEpochMs(),
          })
          if (outcome !== 'taken') throw new Error(`${outcome}: ${message}`)
        },
        evaluate: () => evaluator.arrived(site),
        async restart(how) {
          if (how === 'closed') await evaluator.close()
          evaluator = begin()
        },
        async change(next) {
          await opened.store.putSite(named(next), signature)
        },
        async borneOut() {
          const episodes = (await alerts()).flatMap(({ bornOut, episode }) =>
            bornOut && episode ? [episode] : [],
          )
          return episodes
            .map(({ level, crossedAtEpochMs, heldAtEpochMs, leftAtEpochMs, leftBecause, knownAtEpochMs }) =>
              JSON.stringify([
                level,
                crossedAtEpochMs,
                heldAtEpochMs,
                leftAtEpochMs,
                leftBecause,
                knownAtEpochMs,
              ]),
            )
            .toSorted()
        },
      }
    },
  }
}
