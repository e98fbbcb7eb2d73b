import type { BoardKind } from '#domain/meeting/meeting.ts'

/** What each kind of board is called. */
export const boardKindNames: Readonly<Record<BoardKind, string>> = {
  plan: 'Plan',
  section: 'Section',
  profile: 'Depth profile',
  history: 'Readings over time',
  change: 'Change on the plan',
  exceedances: 'Levels reached, and responses',
  network: 'Network condition',
  minutes: 'Minutes and actions',
}
