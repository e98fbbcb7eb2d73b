import type { SiteDocument } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import type { PlanSymbol } from './plan-symbols.ts'
import type { FoundOf } from './verdict-on-value.ts'

/** What persons found of the values that a symbol stands for, in words; empty: nothing that speaks against any. */
export function doubtedOfSymbol(
  { instrument, points }: Pick<PlanSymbol, 'instrument' | 'points'>,
  document: Pick<SiteDocument, 'points' | 'series'>,
  states: ReadonlyMap<number, SeriesState> | undefined,
  foundOf: FoundOf,
): string {
  const shown = new Set(points)
  const colouring = new Set(
    document.points.flatMap(({ id, primarySeries }) => (shown.has(id) ? (primarySeries ?? []) : [])),
  )
  const own = document.series.filter(({ series, point }) => colouring.has(series) || point === instrument)
  const said = own.flatMap(({ id, series }) => {
    const found = foundOf(id, states?.get(series)?.atEpochMs ?? null)
    return found === '' ? [] : [{ id, found }]
  })
  const [first] = said
  if (!first) return ''
  return own.length === 1
    ? first.found
    : `${said.length} of its values doubted or rejected: ${first.id} ${first.found}`
}
