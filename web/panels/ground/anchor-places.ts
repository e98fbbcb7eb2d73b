import { createMemo } from 'solid-js'
import type { SettledPlace } from '#domain/ground/troughs/trough-across.ts'
import { asSettledPlaces } from '../../derived/ground/settled-places.ts'
import { buriedSettlementSeries, settlementPoints } from '../../derived/settlement-points.ts'
import { lastOf } from '../../queries/often-read.ts'
import { settlementAt } from '../../queries/settlement-at.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { createAnswer } from '../create-answer.ts'

/** Settlement of every anchor below ground at the clock since an instant; empty where none is made, null while it is asked for. */
export function createAnchorPlaces(sinceEpochMs: () => number) {
  const series = createMemo(() => {
    const document = siteDocument()
    return document ? buriedSettlementSeries(document.series, document.points) : []
  })
  const asked = createAnswer(() => {
    const [at, since] = [clockEpochMs(), sinceEpochMs()]
    if (at === null || since >= at || series().length === 0) return null
    const query = settlementAt({
      atEpochMs: at,
      sinceEpochMs: since,
      ...lastOf(series()),
    })
    return { ...query, atEpochMs: at, series: series() }
  })
  return createMemo((): readonly SettledPlace[] | null => {
    if (series().length === 0) return []
    const [document, answer] = [siteDocument(), asked.answer()]
    if (!document || !answer) return null
    const { question, columns } = answer
    const settled = settlementPoints(columns, question.series, document, question.atEpochMs, true)
    const depths = new Map(document.points.map(({ id, depthMetres }) => [id, depthMetres]))
    return asSettledPlaces(settled).map((place) => ({ ...place, depthMetres: depths.get(place.id) ?? 0 }))
  })
}
