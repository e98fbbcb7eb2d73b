import type { SliceList } from '#contract/slice-list.ts'
import { valueLevels } from '#domain/levels/value-levels.ts'
import { statesAt } from '../derived/states-at.ts'
import { openEngine } from '../engine/open-engine.ts'
import { oftenRead } from '../queries/often-read.ts'
import { seriesStatesAt } from '../queries/series-states-at.ts'
import { forgetOtherSlices } from '../slices/fetch-slice.ts'
import { createSliceKeeper } from '../slices/slice-keeper.ts'
import {
  analysis,
  offerAnalysis,
  reportAnalysisProgress,
  reportSlices,
  slicesRevision,
} from '../state/analysis.ts'
import { askServerWithin, sentenceOf } from '../state/ask-server.ts'
import { isFrozen } from '../state/frozen.ts'
import { reportPart } from '../state/kept-parts.ts'
import { reportTrouble } from '../state/notices.ts'
import { largeWithinMs, sitePath } from '../state/open-site.ts'
import { playing } from '../state/playback.ts'
import { reportPastTrouble, showPastStates } from '../state/series-states.ts'
import { clockEpochMs, isAtPresent, knowSpan } from '../state/site-clock.ts'
import { siteDocument, stateDocument } from '../state/site-document.ts'
import { latestOnly } from '../ui/latest-only.ts'
import { newestNext } from '../ui/newest-next.ts'
import { sync } from '../ui/sync.ts'
import { judgeWhatWasKnown } from './judge-what-was-known.ts'
import { startNeighbours } from './start-neighbours.ts'
import { startNetworkStudy } from './start-network-study.ts'
import { startSurface } from './start-surface.ts'
import { watchContradicted } from './watch-contradicted.ts'

/**
 * Brings up the engine behind the drawn map and keeps the states of a past clock. Nothing of it is fetched
 * before the first states are there.
 */
export function startAnalysis(): void {
  const fetchList = latestOnly(({ site, fresh }: { site: string; fresh: boolean }, signal: AbortSignal) =>
    askServerWithin<SliceList>(sitePath(site, '/slices'), largeWithinMs, { signal, fresh }),
  )
  const takeList = async (site: string, fresh = false) => {
    try {
      const list = await fetchList({ site, fresh })
      if (!list) return
      reportPart(site, 'readings', list, () => takeList(site, true))
      const known = analysis()
      if (known && known.site === site) known.keeper.replaceList(list)
      else {
        await known?.engine.close()
        const engine = openEngine({ onProgress: reportAnalysisProgress })
        const keeper = createSliceKeeper(engine, list)
        offerAnalysis({ site, engine, keeper })
        // A failed start is told by its progress, and tried again with the first question.
        whenIdle(() =>
          engine.start().then(
            () => keeper.warmByTime(clockEpochMs() ?? list.slices.at(-1)?.untilEpochMs ?? 0),
            () => undefined,
          ),
        )
      }
      reportSlices(list.revision)
      knowSpan(analysis()?.keeper.span() ?? null)
      if (!isFrozen()) void forgetOtherSlices(new Set(list.slices.map((slice) => slice.url)))
    } catch (cause) {
      // Asked for again, the kept list stays, and the page says that it is kept.
      if (!fresh) reportTrouble({ cause, retry: () => void takeList(site) })
    }
  }
  sync(
    () => {
      const states = stateDocument()
      return states ? { site: states.site, revision: states.revision } : null
    },
    (at) => {
      if (at) void takeList(at.site)
    },
  )
  judgeThePast()
  judgeWhatWasKnown()
  startSurface()
  startNeighbours()
  watchContradicted()
  startNetworkStudy()
}

function judgeThePast(): void {
  const ask = newestNext(
    async (atEpochMs: number) => {
      const [document, on] = [siteDocument(), analysis()]
      if (!document || !on) return null
      const query = seriesStatesAt({ atEpochMs, refineSeries: playing() ? [] : oftenRead(document.series) })
      const { columns, missing } = await on.keeper.ask(query)
      if (missing[0]) throw missing[0]
      const levels = valueLevels(document.triggerLevels, document.stages)
      return statesAt(columns, document.series, levels, atEpochMs)
    },
    (states, atEpochMs) => {
      if (!states) return
      showPastStates({ atEpochMs, states: new Map(states.map((state) => [state.series, state])) })
    },
    (cause) => reportPastTrouble(`States at this instant could not be worked out: ${sentenceOf(cause)}`),
  )
  sync(
    () => ({
      at: isAtPresent() ? null : clockEpochMs(),
      on: analysis(),
      running: playing(),
      revision: slicesRevision(),
    }),
    ({ at, on }) => {
      if (at === null || !on) return
      performance.mark('clock-step', { detail: at })
      ask(at)
    },
  )
}

function whenIdle(task: () => unknown): void {
  if ('requestIdleCallback' in globalThis) requestIdleCallback(task, { timeout: 3000 })
  else setTimeout(task, 1000)
}
