import { valueLevels } from '#domain/levels/value-levels.ts'
import { knownThen } from '../derived/known-then.ts'
import { analysis } from '../state/analysis.ts'
import { sentenceOf } from '../state/ask-server.ts'
import { playing } from '../state/playback.ts'
import { measuredStates, reportKnownTrouble, showKnown } from '../state/series-states.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { latestOnly } from '../ui/latest-only.ts'
import { sync } from '../ui/sync.ts'

/** Rest of the clock after which it is asked: a clock that is dragged or stepped must not wait behind it. */
const restMs = 300

/**
 * Where the clock rests in the past, tells what had been received by then, after the states of that instant are drawn.
 * Its questions are asked one by one and given up when the clock goes on.
 */
export function judgeWhatWasKnown(): void {
  const work = latestOnly(async (atEpochMs: number | null, signal: AbortSignal) => {
    const [document, on] = [siteDocument(), analysis()]
    if (atEpochMs === null || !document || !on) return null
    await new Promise((resolve) => setTimeout(resolve, restMs))
    const { series, triggerLevels, stages } = document
    const mark = performance.mark('known-then', { detail: atEpochMs })
    const known = await knownThen(
      { atEpochMs, series, levels: valueLevels(triggerLevels, stages) },
      async (query) => {
        signal.throwIfAborted()
        const { columns, missing } = await on.keeper.ask(query, signal)
        if (missing[0]) throw missing[0]
        return columns
      },
    )
    performance.measure('known-then', { start: mark.startTime, detail: atEpochMs })
    return known
  })
  sync(
    () => {
      const judged = measuredStates()
      return judged !== null && judged.atEpochMs === clockEpochMs() && !playing() ? judged : null
    },
    (judged) => {
      const atEpochMs = judged?.atEpochMs ?? null
      work(atEpochMs).then(
        (known) => {
          if (known) showKnown(known)
        },
        (cause) => {
          if (atEpochMs !== null)
            reportKnownTrouble(
              atEpochMs,
              `What had been received by this instant could not be worked out: ${sentenceOf(cause)}`,
            )
        },
      )
    },
  )
}
