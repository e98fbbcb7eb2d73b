import type { ContradictedVerdicts } from '#contract/contradicted-verdicts.ts'
import { rulesVersion } from '#domain/review/rules-version.ts'
import type { Publisher } from '../slices/publisher.ts'
import { wordsOfFailure } from '../words-of-failure.ts'
import type { LookedAgain } from './look-again.ts'

/** Tells which verdicts newer data contradict, without anybody having the page open. */
export interface VerdictWatch {
  /** Says that readings or records of a site were published; the verdicts are held against them soon after. */
  published(site: string): void
  /** Null: no such site. */
  document(site: string): Promise<ContradictedVerdicts | null>
  /** Waits for what was asked for. */
  settled(): Promise<void>
  close(): Promise<void>
}

export interface VerdictWatchDependencies {
  /** `lookAgain` over store and publisher; null: no such site. */
  readonly look: (site: string, last: LookedAgain | null) => Promise<LookedAgain | null>
  /** What is published now. */
  readonly revisionOf: (site: string) => Promise<number | null>
  readonly report: (line: string) => void
  /** It rests so many times as long as it took, and at least so long: readings are taken in by the same cores. */
  readonly rest?: { readonly times: number; readonly leastMs: number }
}

/** Revision that is published; null: no such site. */
export const publishedRevision =
  (publisher: Pick<Publisher, 'publishing'>) =>
  async (site: string): Promise<number | null> => {
    const publishing = await publisher.publishing(site)
    return publishing === null ? null : publishing.publishedRevision
  }

interface Lane {
  last: LookedAgain | null
  failure: string | null
  running: Promise<void> | null
  timer: NodeJS.Timeout | null
  restUntilMs: number
}

const usualRest = { times: 20, leastMs: 10_000 }

/**
 * Looks at the verdicts of a site again whenever something was published, one look at a time; what is published during a
 * look or the rest after it shares the next. Nothing is recorded: what comes of it follows from what is published, whenever
 * and however often that is looked at.
 */
export function createVerdictWatch({
  look,
  revisionOf,
  report,
  rest = usualRest,
}: VerdictWatchDependencies): VerdictWatch {
  const lanes = new Map<string, Lane>()
  let closed = false

  const laneOf = (site: string): Lane => {
    const lane = lanes.get(site) ?? { last: null, failure: null, running: null, timer: null, restUntilMs: 0 }
    lanes.set(site, lane)
    return lane
  }

  function lookSoon(site: string): void {
    const lane = laneOf(site)
    if (closed || lane.timer) return
    const waitMs = Math.max(0, lane.restUntilMs - performance.now())
    lane.timer = setTimeout(() => {
      lane.timer = null
      if (lane.running) void lane.running.then(() => lookSoon(site))
      else lane.running = once(site, lane)
    }, waitMs)
  }

  async function once(site: string, lane: Lane): Promise<void> {
    const begunMs = performance.now()
    try {
      lane.last = await look(site, lane.last)
      lane.failure = null
      for (const { verdict, why, reason } of lane.last?.unjudged ?? [])
        if (why === 'failed') report(`${site}: verdict ${verdict}: ${reason}`)
    } catch (failure) {
      // What was found before stands, and says of when it is; the next publishing tries again.
      lane.failure = `Verdicts were not held against the newest data: ${wordsOfFailure(failure)}`
      report(`${site}: ${lane.failure}`)
    } finally {
      const endedMs = performance.now()
      lane.restUntilMs = endedMs + Math.max(rest.leastMs, rest.times * (endedMs - begunMs))
      lane.running = null
    }
  }

  return {
    published: lookSoon,

    async document(site) {
      const revision = await revisionOf(site)
      if (revision === null) return null
      const { last, failure } = laneOf(site)
      return {
        site,
        revision: last?.revision ?? null,
        asOfEpochMs: last?.asOfEpochMs ?? null,
        behind: last === null || last.revision < revision,
        failure,
        held: last?.held ?? 0,
        rules: rulesVersion,
        verdicts: last?.verdicts ?? [],
        unjudged: last?.unjudged ?? [],
      }
    },

    async settled() {
      const busy = () =>
        [...lanes.values()].filter(({ running, timer }) => running !== null || timer !== null)
      while (busy().length > 0) await new Promise((resolve) => setTimeout(resolve, 5))
    },

    async close() {
      closed = true
      for (const { timer } of lanes.values()) if (timer) clearTimeout(timer)
      await Promise.all([...lanes.values()].map(({ running }) => running))
    },
  }
}
