import { createSignal } from 'solid-js'
import { selectedInstrument } from './selection.ts'

/** Tabs of the side sheet, in order. */
export const sheetTabs = [
  'section',
  'profile',
  'history',
  'record',
  'review',
  'alerts',
  'levels',
  'reports',
  'ground',
  'field',
  'network',
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
  const waits = ofSelection.has(sheetTab()) && selectedInstrument() === null
  return sheetHeight() === 'half' && waits ? 'waiting' : sheetHeight()
}

const ofSelection: ReadonlySet<SheetTab> = new Set(['profile', 'history', 'record', 'review'])

/** Opens a tab; a lowered sheet comes up with it. */
export function openSheet(tab: SheetTab): void {
  setSheetTab(tab)
  if (sheetHeight() === 'low') setSheetHeight('half')
}

export function raiseSheet(height: SheetHeight): void {
  setSheetHeight(height)
}
