import { createSignal } from 'solid-js'
import { reviewPage } from './review-page.ts'
import { selectedInstrument } from './selection.ts'

/** Tabs of the side sheet, in order. */
export const sheetTabs = [
  'section',
  'profile',
  'history',
  'record',
  'review',
  'what-if',
  'alerts',
  'levels',
  'reports',
  'ground',
  'field',
  'network',
  'meetings',
  'register',
  'imports',
  'audit',
] as const
export type SheetTab = (typeof sheetTabs)[number]

/** How much of a narrow screen the sheet takes. */
export type SheetHeight = 'low' | 'half' | 'full'

const [sheetTab, setSheetTab] = createSignal<SheetTab>('history')
const [sheetHeight, setSheetHeight] = createSignal<SheetHeight>('half')

export { sheetHeight, sheetTab }

/** How the sheet stands on a narrow screen: one that waits for a selection leaves its room to the plan. */
export function sheetStanding(): SheetHeight | 'waiting' {
  const waits = ofSelection.has(sheetTab()) && selectedInstrument() === null && !needsNoSelection()
  return sheetHeight() === 'half' && waits ? 'waiting' : sheetHeight()
}

const ofSelection: ReadonlySet<SheetTab> = new Set(['profile', 'history', 'record', 'review', 'what-if'])
/** A comparison and an area that was drawn stand by themselves. */
const needsNoSelection = () =>
  sheetTab() === 'review' && (reviewPage() === 'compare' || reviewPage() === 'patch')

/** Opens a tab; a lowered sheet comes up with it. */
export function openSheet(tab: SheetTab): void {
  setSheetTab(tab)
  if (sheetHeight() === 'low') setSheetHeight('half')
}

export function raiseSheet(height: SheetHeight): void {
  setSheetHeight(height)
}
