import { createMemo, createRoot } from 'solid-js'
import { filterSymbols } from '../derived/filter-symbols.ts'
import { gatherSymbols, type PlanSymbol } from '../derived/plan-symbols.ts'
import { alertsAtClock } from './alerts.ts'
import { filters } from './filters.ts'
import {
  selectedInstrument,
  selectedPoint,
  selectInstrument,
  selectNothing,
  selectPoint,
} from './selection.ts'
import { laterAtClock, planEpochMs, statesAtClock } from './series-states.ts'
import { siteDocument } from './site-document.ts'

const allSymbols = createRoot(() =>
  createMemo((): readonly PlanSymbol[] => {
    const document = siteDocument()
    if (!document) return []
    return gatherSymbols({
      ...document,
      states: statesAtClock()?.states ?? null,
      atEpochMs: planEpochMs(),
      later: laterAtClock(),
    })
  }),
)

/** Symbols that pass the filters, least concern first. */
export const shownSymbols = createRoot(() =>
  createMemo((): readonly PlanSymbol[] => {
    const known = filters().openAlerts ? alertsAtClock() : null
    return filterSymbols(allSymbols(), filters(), known?.alerts ?? null)
  }),
)

/** Symbol of the selection, filtered out or not. */
export const selectedSymbol = createRoot(() =>
  createMemo((): PlanSymbol | null => {
    const point = selectedPoint()?.id
    const instrument = selectedInstrument()?.id
    const candidates = allSymbols().filter((symbol) => symbol.instrument === instrument)
    if (point === undefined) return candidates[0] ?? null
    return candidates.find((symbol) => symbol.points.includes(point)) ?? null
  }),
)

/** Selects what a symbol stands for: its one point, or the instrument gathered in it. */
export function selectSymbol(id: string | null): void {
  const symbol = allSymbols().find((one) => one.id === id)
  const only = symbol?.points.length === 1 ? symbol.points[0] : undefined
  if (!symbol) selectNothing()
  else if (only !== undefined) selectPoint(only)
  else selectInstrument(symbol.instrument)
}
