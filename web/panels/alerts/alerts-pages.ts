import type { Component } from 'solid-js'
import type { AlertsPage } from '../../state/alerts-page.ts'

/** Names of the pages of alerts and responses, and the code of each, fetched when it is first opened. */
export const alertsPageParts: Readonly<
  Record<AlertsPage, { readonly name: string; readonly load: () => Promise<Component> }>
> = {
  list: { name: 'Alerts', load: async () => (await import('./AlertList.tsx')).AlertList },
  duties: { name: 'Who is told', load: async () => (await import('../duties/DutiesPanel.tsx')).DutiesPanel },
  statistics: { name: 'Statistics', load: async () => (await import('./StatisticsPage.tsx')).StatisticsPage },
  drills: { name: 'Drills', load: async () => (await import('./DrillsPage.tsx')).DrillsPage },
  ways: { name: 'Where alerts go', load: async () => (await import('./WhereAlertsGo.tsx')).WhereAlertsGo },
}
