import type { Store, StoredAlertEvent } from '../store/store.ts'
import { wordsOfFailure } from '../words-of-failure.ts'
import { type EvaluationStanding, evaluationStanding } from './evaluation-standing.ts'
import { createSiteEvaluation, type SiteEvaluation } from './site-evaluation.ts'

/** Holds levels against readings as these arrive. */
export interface Evaluator {
  /**
   * Says that readings or records were committed; what follows within the gathering time shares a run. Resolves when
   * that run has ended, also where it failed: `standing` tells.
   */
  arrived(site: string): Promise<void>
  /** Evaluates what time alone does: silence begins, levels end. May be called often, and does it twice a minute. */
  tick(): Promise<void>
  /** As of an instant; else as of the site's present. */
  standing(site: string, asOfEpochMs?: number): Promise<EvaluationStanding>
  /** Waits for runs under way, keeps how far they are, and stops. */
  close(): Promise<void>
}

export interface EvaluatorDependencies {
  readonly store: Store
  /** Where each site's state is kept between starts (`evaluation-snapshot.ts`). */
  readonly folder: string
  readonly now: () => number
  /** Told of the events of alerts that a run has recorded; never of none. */
  readonly onEvents: (site: string, events: readonly StoredAlertEvent[]) => void
  /** Told of every run that went through, with the revision up to which readings are evaluated. */
  readonly onEvaluated?: (site: string, revision: number) => void
  /** Told of a run that failed; it is tried again. */
  readonly onFailure: (site: string, failure: unknown) => void
  readonly gatherMs?: number
}

/** One site's runs, one after another. */
interface Lane {
  readonly evaluation: SiteEvaluation
  /** The run that is to begin; what arrives before it does is in it. */
  next: { readonly timer: NodeJS.Timeout; readonly ended: Promise<void>; readonly drop: () => void } | null
  running: Promise<void>
  byClock: boolean
  clockedAtEpochMs: number
  failures: number
  failure: string | null
  savedAtEpochMs: number
  saving: Promise<void> | null
}

const usualGatherMs = 100
const saveEveryMs = 5 * 60_000
const clockEveryMs = 30_000
/** Runs by the clock end twice a minute; without one for so long, something hangs. */
const stalledAfterMs = 10 * 60_000
const retryMs = { first: 5000, longest: 60_000 }

/** The evaluator of every site of a store. */
export function createEvaluator(dependencies: EvaluatorDependencies): Evaluator {
  const { store, folder, now, onEvents, onEvaluated, onFailure } = dependencies
  const gatherMs = dependencies.gatherMs ?? usualGatherMs
  const lanes = new Map<string, Lane>()
  let closed = false

  function laneOf(site: string): Lane {
    const known = lanes.get(site)
    if (known) return known
    const lane: Lane = {
      evaluation: createSiteEvaluation({ store, site, folder, now }),
      next: null,
      running: Promise.resolve(),
      byClock: false,
      clockedAtEpochMs: 0,
      failures: 0,
      failure: null,
      savedAtEpochMs: now(),
      saving: null,
    }
    lanes.set(site, lane)
    return lane
  }

  function runSoon(site: string, afterMs: number): Promise<void> {
    const lane = laneOf(site)
    if (closed) return lane.running
    if (lane.next) return lane.next.ended
    let drop = () => {}
    let timer: NodeJS.Timeout | undefined
    const ended = new Promise<void>((resolve) => {
      drop = resolve
      timer = setTimeout(() => {
        // What arrives while the run before it goes on still belongs to it: runs never queue up.
        lane.running = lane.running.then(() => {
          lane.next = null
          return runOnce(site, lane)
        })
        resolve(lane.running)
      }, afterMs)
    })
    lane.next = { timer: timer as NodeJS.Timeout, ended, drop }
    return ended
  }

  async function runOnce(site: string, lane: Lane): Promise<void> {
    const { byClock } = lane
    lane.byClock = false
    try {
      const events = await lane.evaluation.run(byClock)
      lane.failures = 0
      lane.failure = null
      tell(site, events, lane.evaluation.progress().revision)
      if (lane.saving === null && now() - lane.savedAtEpochMs >= saveEveryMs) void save(site, lane)
    } catch (failure) {
      lane.byClock ||= byClock
      lane.failure = `Levels are not evaluated: ${wordsOfFailure(failure)}`
      lane.failures += 1
      onFailure(site, failure)
      void runSoon(site, Math.min(retryMs.longest, retryMs.first * 2 ** (lane.failures - 1)))
    }
  }

  /** Events are recorded by now: who fails on hearing of them holds nothing up. */
  function tell(site: string, events: readonly StoredAlertEvent[], revision: number): void {
    try {
      if (events.length > 0) onEvents(site, events)
      onEvaluated?.(site, revision)
    } catch (failure) {
      onFailure(site, failure)
    }
  }

  /** What is not kept is folded anew at the next start: worth telling, no reason to stop. */
  function save(site: string, lane: Lane): Promise<void> {
    lane.savedAtEpochMs = now()
    lane.saving = lane.evaluation
      .save()
      .catch((failure) => onFailure(site, failure))
      .finally(() => {
        lane.saving = null
      })
    return lane.saving
  }

  return {
    arrived: (site) => runSoon(site, gatherMs),

    async tick() {
      const due = (await store.listSites()).filter(
        ({ id }) => now() - laneOf(id).clockedAtEpochMs >= clockEveryMs,
      )
      await Promise.all(
        due.map(({ id }) => {
          const lane = laneOf(id)
          lane.clockedAtEpochMs = now()
          lane.byClock = true
          return runSoon(id, 0)
        }),
      )
    },

    async standing(site, asked) {
      const { evaluation, failure } = laneOf(site)
      const facts = (await store.getSite(site))?.facts
      const progress = asked === undefined ? evaluation.progress() : evaluation.progressAt(asked)
      const { evaluatedAtEpochMs } = progress
      const isStalled = evaluatedAtEpochMs !== null && now() - evaluatedAtEpochMs > stalledAfterMs
      return evaluationStanding(progress, {
        storeRevision: await store.revision(site),
        failure:
          failure ?? (isStalled ? 'No evaluation has come to its end for more than 10 minutes.' : null),
        asOfEpochMs: asked ?? facts?.presentEpochMs ?? now(),
      })
    },

    async close() {
      closed = true
      for (const [site, lane] of lanes) {
        clearTimeout(lane.next?.timer)
        lane.next?.drop()
        lane.next = null
        await lane.running
        await lane.saving
        await save(site, lane)
      }
    },
  }
}
