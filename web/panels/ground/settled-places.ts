import { createMemo } from 'solid-js'
import {
  readingSpanSentence,
  type SettlementPoint,
  settlementPoints,
  settlementSeries,
} from '../../derived/settlement-points.ts'
import { lastOf } from '../../queries/often-read.ts'
import { settlementAt } from '../../queries/settlement-at.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { createAnswer } from '../create-answer.ts'
import { startAfterClock } from './start-after-clock.ts'

/**
 * Settlement of every levelled point at the clock, since an instant or since its own zero reading; null while it is asked
 * for.
 */
export function createSettledPlaces(sinceEpochMs: () => number | 'zero-reading' | null) {
  const series = createMemo(() => {
    const document = siteDocument()
    return document ? settlementSeries(document.series, document.points) : []
  })
  const asked = createAnswer(() => {
    const [at, since] = [clockEpochMs(), sinceEpochMs()]
    const from = since === 'zero-reading' ? null : since
    if (at === null || since === null || (from ?? -Infinity) >= at || series().length === 0) return null
    const query = settlementAt({
      atEpochMs: at,
      sinceEpochMs: from,
      ...lastOf(series()),
    })
    return { ...query, atEpochMs: at, change: from !== null, series: series() }
  })
  const places = createMemo((): readonly SettlementPoint[] | null => {
    const [document, answer] = [siteDocument(), asked.answer()]
    if (!document || !answer) return null
    const { question, columns } = answer
    return settlementPoints(columns, question.series, document, question.atEpochMs, question.change)
  })
  return {
    places,
    remarks: () => {
      const zone = siteDocument()?.facts.timeZone ?? 'UTC'
      const since = sinceEpochMs()
      const span = readingSpanSentence(places() ?? [], (at) => formatShortInstant(at, zone))
      return [
        ...startAfterClock(since === 'zero-reading' ? null : since),
        ...(span === null ? [] : [span]),
        ...asked.remarks(),
      ]
    },
    waiting: asked.waiting,
  }
}
