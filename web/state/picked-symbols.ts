import { createMemo, createRoot } from 'solid-js'
import { seriesOfSymbol } from '../derived/review/series-of-symbol.ts'
import { compared, comparedSeries, pickingCompared, toggleCompared } from './compared.ts'
import { shownSymbols } from './plan-symbols.ts'
import { reviewedSeries } from './reviewed-series.ts'
import { siteLookup } from './site-document.ts'

/** Symbols of the series that are compared, with their numbers in the list; null while a tap selects. */
export const pickedSymbols = createRoot(() =>
  createMemo((): ReadonlyMap<string, string> | null => {
    if (!pickingCompared()) return null
    const signs = new Map<string, string>()
    comparedSeries().forEach(({ point, id }) => {
      const symbol = shownSymbols().find((one) => one.points.includes(point) || one.instrument === point)
      const number = String(compared().indexOf(id) + 1)
      if (symbol)
        signs.set(symbol.id, [signs.get(symbol.id), number].filter((one) => one !== undefined).join(', '))
    })
    return signs
  }),
)

/** Takes the series of a symbol into the comparison, or out of it. */
export function pickSymbolForComparison(id: string): void {
  const symbol = shownSymbols().find((one) => one.id === id)
  if (!symbol) return
  const series = seriesOfSymbol(symbol, siteLookup(), reviewedSeries()?.measure ?? null, compared())
  if (series) toggleCompared(series)
}
