import { expect, test } from 'vitest'
import type { AlertHappening } from '#domain/alerts/alert-event.ts'
import { alertGroups, needSomebody } from '../../../../web/derived/alerts/alert-groups.ts'
import { attempted } from '../../../support/alert-events.ts'
import { acknowledged, closed, listedAlert, verified } from '../../../support/listed-alerts.ts'

const step = (minute: number, ...happenings: readonly AlertHappening[]) =>
  happenings.map((one, place) => [minute + place, one, 'Ada'] as const)

test('alerts stand by how far people are; a message handed over is nobody yet', () => {
  const alerts = [
    listedAlert(1, step(1, acknowledged(), verified(), closed())),
    listedAlert(2, step(1, acknowledged(), verified())),
    listedAlert(3, step(1, acknowledged())),
    listedAlert(4, [[1, attempted('delivered')]]),
    listedAlert(5),
  ]
  const numbers = alertGroups(alerts).map(({ response, alerts: of }) => [
    response,
    of.map(({ alert }) => alert),
  ])
  expect(numbers).toEqual([
    ['nobody', [4, 5]],
    ['taken-up', [3]],
    ['verified', [2]],
    ['closed', [1]],
  ])
  expect(needSomebody(alerts)).toBe(2)
  expect(alertGroups([]).map(({ alerts: of }) => of.length)).toEqual([0, 0, 0, 0])
})

test('of those that nobody took up the unreachable, then those still reached, higher and older ones come first', () => {
  const left = { leftAtEpochMs: 50, leftBecause: 'value' as const }
  const alerts = [
    listedAlert(1, [[1, { kind: 'not-borne-out' }]], { level: { level: 3 } }),
    listedAlert(2, [], { episode: left, level: { level: 2 } }),
    listedAlert(3, [], { zeroEpochMs: 1000 }),
    listedAlert(4),
    listedAlert(5, [], { level: { level: 2 }, zeroEpochMs: 5000 }),
    listedAlert(6, [[1, { kind: 'unreachable', duty: 'night' }]], { episode: left }),
  ]
  expect(alertGroups(alerts)[0]?.alerts.map(({ alert }) => alert)).toEqual([6, 5, 4, 3, 2, 1])
})

test('closed ones come last closed first', () => {
  const alerts = [1, 2, 3].map((alert) =>
    listedAlert(alert, step(alert === 2 ? 90 : 10 + alert, acknowledged(), verified(), closed())),
  )
  expect(alertGroups(alerts)[3]?.alerts.map(({ alert }) => alert)).toEqual([2, 3, 1])
})
