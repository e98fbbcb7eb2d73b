import type { ListedAlert } from '#contract/alerts.ts'
import type { Filters } from '../state/filters.ts'
import { isOf, placedAlerts } from './alerts/alert-marks.ts'
import type { PlanSymbol } from './plan-symbols.ts'

/**
 * Symbols that pass the filters of the plan, in their order. `alerts`: those known at the instant; null where they are not,
 * and then no symbol is taken for one without: an empty plan would say that there are none.
 */
export function filterSymbols(
  symbols: readonly PlanSymbol[],
  { hiddenKinds, standings, text, openAlerts }: Filters,
  alerts: readonly ListedAlert[] | null,
): readonly PlanSymbol[] {
  const open = openAlerts && alerts ? placedAlerts(alerts) : null
  const wanted = text.trim().toLowerCase()
  return symbols.filter(
    (symbol) =>
      !hiddenKinds.includes(symbol.kind) &&
      (!open || open.some((alert) => isOf(symbol, alert))) &&
      (standings.length === 0 ||
        standings.includes(symbol.standing) ||
        (symbol.partLate && standings.includes('late'))) &&
      (wanted === '' || [symbol.id, ...symbol.points].some((name) => name.toLowerCase().includes(wanted))),
  )
}
