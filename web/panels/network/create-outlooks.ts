import { createMemo } from 'solid-js'
import { batterySeriesOf } from '#domain/power/battery-series.ts'
import { batteryDaysLookedAt, batteryOutlooks } from '../../derived/battery-outlooks.ts'
import { batteryDays } from '../../queries/battery-days.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { createAnswer } from '../create-answer.ts'

const dayMs = 86_400_000

/** How the cells of every logger fare at the site clock, from the days kept in this browser. */
export function createOutlooks() {
  const loggers = createMemo(() => {
    const [document, at] = [siteDocument(), clockEpochMs()]
    return document && at !== null ? batterySeriesOf(document, at) : []
  })
  const asked = createAnswer(() => {
    const at = clockEpochMs()
    if (at === null || loggers().length === 0) return null
    const query = batteryDays({
      atEpochMs: at,
      fromEpochMs: Math.floor(at / dayMs) * dayMs - batteryDaysLookedAt * dayMs,
      series: loggers().flatMap(({ voltage, temperature }) =>
        temperature === null ? [voltage] : [voltage, temperature],
      ),
    })
    return { ...query, atEpochMs: at, loggers: loggers() }
  })
  const outlooks = createMemo(() => {
    const answer = asked.answer()
    return answer && batteryOutlooks(answer.columns, answer.question.loggers, answer.question.atEpochMs)
  })
  return { loggers, outlooks, remarks: asked.remarks, waiting: asked.waiting }
}
