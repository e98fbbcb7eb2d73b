import type { AlertsStanding } from './alerts-standing.ts'

/** What stands before a tab's title: how many alerts nobody took up, `?` where that is not known now; nothing for none or while awaited. */
export function titleCount(standing: AlertsStanding, waiting: number | null): string {
  if (standing.kind === 'unknown') return standing.isRefused ? '(?) ' : ''
  return waiting === 0 ? '' : `(${waiting ?? '?'}) `
}
