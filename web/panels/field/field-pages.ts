import type { Component } from 'solid-js'
import type { FieldPage } from '../../state/field-page.ts'

/** Names of the pages of field work, and the code of each, fetched when it is first opened. */
export const fieldPageParts: Readonly<
  Record<FieldPage, { readonly name: string; readonly load: () => Promise<Component> }>
> = {
  round: { name: 'Round', load: async () => (await import('./RoundPage.tsx')).RoundPage },
  reading: { name: 'Reading', load: async () => (await import('./ReadingPage.tsx')).ReadingPage },
  scan: { name: 'Scan', load: async () => (await import('./ScanPage.tsx')).ScanPage },
  note: { name: 'Note', load: async () => (await import('./NotePage.tsx')).NotePage },
  install: { name: 'Install', load: async () => (await import('./install/InstallPage.tsx')).InstallPage },
  commission: {
    name: 'Commission',
    load: async () => (await import('./commission/CommissionPage.tsx')).CommissionPage,
  },
  coverage: {
    name: 'Coverage test',
    load: async () => (await import('./CoverageTestPage.tsx')).CoverageTestPage,
  },
  memory: { name: 'Logger memory', load: async () => (await import('./MemoryPage.tsx')).MemoryPage },
  labels: { name: 'Labels', load: async () => (await import('./LabelsPage.tsx')).LabelsPage },
  outbox: { name: 'Outbox', load: async () => (await import('./OutboxPage.tsx')).OutboxPage },
  device: { name: 'On this device', load: async () => (await import('./DevicePage.tsx')).DevicePage },
}
