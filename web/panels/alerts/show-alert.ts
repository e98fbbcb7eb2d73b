import type { ListedAlert } from '#contract/alerts.ts'
import { sinceEpochMs } from '../../derived/alerts/response-state.ts'
import { filters, toggleKind } from '../../state/filters.ts'
import { selectPoint } from '../../state/selection.ts'
import { openSheet, type SheetTab } from '../../state/sheet.ts'
import { scrubTo } from '../../state/site-clock.ts'
import { siteLookup } from '../../state/site-document.ts'

/** Selects what an alert is about, on the plan and in the views; `tab`: opens a view of it too. */
export function showAlertsPoint(
  { point, series }: Pick<ListedAlert, 'point' | 'series'>,
  tab?: SheetTab,
): void {
  if (point === null) return
  const { pointById, instrumentById, seriesById } = siteLookup()
  const kind = (pointById.get(point) ?? instrumentById.get(point))?.kind
  // A selection that a filter hides is none.
  if (kind && filters().hiddenKinds.includes(kind)) toggleKind(kind)
  selectPoint(point, series === null ? null : (seriesById.get(series)?.measure ?? null))
  if (tab) openSheet(tab)
}

const dayMs = 86_400_000

/** The readings of its point over time, with the site clock a day after the level was reached. */
export function showReadingsOf(alert: ListedAlert): void {
  scrubTo(sinceEpochMs(alert) + dayMs)
  showAlertsPoint(alert, 'history')
}
