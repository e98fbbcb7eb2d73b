import type { Component } from 'solid-js'
import type { AlertsPage } from '../../state/alerts-page.ts'

/** Names of the pages, and the code of those that are fetched when they are first opened. */
export const alertsPageParts = {
  list: { name: 'Alerts' },
  statistics: {
    name: 'Statistics',
    load: async (): Promise<Component> => (await import('./StatisticsPage.tsx')).StatisticsPage,
  },
  drills: {
    name: 'Drills',
    load: async (): Promise<Component> => (await import('./DrillsPage.tsx')).DrillsPage,
  },
} as const satisfies Readonly<Record<AlertsPage, { readonly name: string }>>
