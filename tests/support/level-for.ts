import type { TriggerLevel } from '#domain/site/tables.ts'

/** A trigger level for a test: level 1, reached at 10 and above from the beginning of time on, unless told otherwise. */
export const levelFor = (changed: Partial<TriggerLevel> = {}): TriggerLevel => ({
  id: 'one',
  series: 'P-1/settlement',
  level: 1,
  direction: 'above',
  value: 10,
  validFrom: 0,
  validUntil: null,
  action: 'read again',
  owner: 'engineer',
  withinMinutes: 60,
  reason: 'design',
  author: 'A',
  approver: 'B',
  ...changed,
})
