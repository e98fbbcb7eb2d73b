import type { AlertEvent, AlertHappening } from '#domain/alerts/alert-event.ts'
import type { Episode } from '#domain/alerts/episode.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'

/** A level of the tests; every cell can be set. */
export const triggerLevel = (changed: Partial<TriggerLevel> = {}): TriggerLevel => ({
  id: 'SP-01 settlement 1',
  series: 'SP-01/settlement',
  level: 1,
  direction: 'above',
  value: 22,
  validFrom: 0,
  validUntil: null,
  action: 'Level the point again; tell the section engineer',
  owner: 'Monitoring engineer',
  withinMinutes: 240,
  reason: 'Design report section 6',
  author: 'A. Designer',
  approver: 'B. Checker',
  ...changed,
})

/** An episode that held with its first reading and still stands. */
export const heldEpisode = (crossedAtEpochMs: number, changed: Partial<Episode> = {}): Episode => ({
  level: 'SP-01 settlement 1',
  crossedAtEpochMs,
  heldAtEpochMs: crossedAtEpochMs,
  leftAtEpochMs: null,
  leftBecause: null,
  knownAtEpochMs: crossedAtEpochMs,
  peakValue: 23,
  peakAtEpochMs: crossedAtEpochMs,
  ...changed,
})

export const raised = (
  episode = heldEpisode(0),
  changed: Partial<Extract<AlertHappening, { kind: 'raised' }>> = {},
): AlertHappening => ({
  kind: 'raised',
  cause: { kind: 'level', level: triggerLevel({ id: episode.level }), episode },
  late: false,
  untoldBecause: null,
  ...changed,
})

export const attempted = (
  outcome: 'delivered' | 'failed' | 'not-set-up',
  changed: Partial<Extract<AlertHappening, { kind: 'attempted' }>> = {},
): AlertHappening => ({
  kind: 'attempted',
  message: '1/0/ada',
  recipient: 'ada',
  way: 'mail',
  to: null,
  outcome,
  detail: 'as the test has it',
  retryAtEpochMs: null,
  ...changed,
})

/** Events of one alert a second apart; those of a person are by Ada. */
export const eventsOf = (alert: number, ...happenings: readonly AlertHappening[]): readonly AlertEvent[] =>
  happenings.map((happening, i) => ({
    alert,
    atEpochMs: i * 1000,
    by: ['acknowledged', 'verified', 'closed', 'reopened'].includes(happening.kind) ? 'Ada Marsh' : null,
    happening,
  }))
