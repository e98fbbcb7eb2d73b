import type { Component } from 'solid-js'
import { firstColour } from '../state/first-colour.ts'
import { reportTrouble } from '../state/notices.ts'
import type { SheetTab } from '../state/sheet.ts'
import { Later } from '../ui/Later.tsx'
import { RecordPanel } from './RecordPanel.tsx'
import { RegisterPanel } from './RegisterPanel.tsx'

/** A way to look: what its tab is called, and what it shows. */
interface SheetPage {
  readonly name: string
  readonly Page: Component
}

/** Fetched when it is first looked at, and not before the first colours are drawn. */
const fetched = (what: string, load: () => Promise<Component>): Component =>
  function Fetched() {
    return (
      <Later
        when={firstColour()}
        load={load}
        waiting={`Fetching ${what} …`}
        failed={(cause) => reportTrouble({ cause, retry: () => location.reload() })}
      />
    )
  }

/** Every tab of the side sheet. A new one is added here and to `sheetTabs`, and nowhere else. */
export const sheetPages: Readonly<Record<SheetTab, SheetPage>> = {
  section: {
    name: 'Section',
    Page: fetched('the section', async () => (await import('./SectionPanel.tsx')).SectionPanel),
  },
  profile: {
    name: 'Depth profile',
    Page: fetched('the depth profile', async () => (await import('./ProfilePanel.tsx')).ProfilePanel),
  },
  history: {
    name: 'Readings over time',
    Page: fetched('readings over time', async () => (await import('./HistoryPanel.tsx')).HistoryPanel),
  },
  record: { name: 'Record', Page: RecordPanel },
  review: {
    name: 'Review',
    Page: fetched('the review', async () => (await import('./review/ReviewDesk.tsx')).ReviewDesk),
  },
  'what-if': {
    name: 'What if',
    Page: fetched('the sandbox', async () => (await import('./what-if/WhatIfPanel.tsx')).WhatIfPanel),
  },
  alerts: {
    name: 'Alerts',
    Page: fetched('alerts and responses', async () => (await import('./alerts/AlertsPanel.tsx')).AlertsPanel),
  },
  ground: {
    name: 'Ground',
    Page: fetched('the analyses', async () => (await import('./ground/GroundPanel.tsx')).GroundPanel),
  },
  field: {
    name: 'Field work',
    Page: fetched('field work', async () => (await import('./field/FieldPanel.tsx')).FieldPanel),
  },
  network: {
    name: 'Network',
    Page: fetched('the network', async () => (await import('./network/NetworkPanel.tsx')).NetworkPanel),
  },
  meetings: {
    name: 'Meetings',
    Page: fetched('the meetings', async () => (await import('./meetings/MeetingsPanel.tsx')).MeetingsPanel),
  },
  register: { name: 'Register', Page: RegisterPanel },
  imports: {
    name: 'Imports',
    Page: fetched('imports', async () => (await import('./ImportsPanel.tsx')).ImportsPanel),
  },
  levels: {
    name: 'Levels',
    Page: fetched('trigger levels', async () => (await import('./levels/LevelsPanel.tsx')).LevelsPanel),
  },
  reports: {
    name: 'Reports',
    Page: fetched('reports', async () => (await import('./reports/ReportsPanel.tsx')).ReportsPanel),
  },
  audit: {
    name: 'Audit',
    Page: fetched('the audit record', async () => (await import('./audit/AuditPanel.tsx')).AuditPanel),
  },
}
