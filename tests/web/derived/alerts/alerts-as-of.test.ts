import fc from 'fast-check'
import { expect, test } from 'vitest'
import { alertOf } from '#domain/alerts/alert.ts'
import type { AlertEvent, AlertHappening } from '#domain/alerts/alert-event.ts'
import { alertsAsOf, mayLackAlerts } from '../../../../web/derived/alerts/alerts-as-of.ts'
import { attempted, raised } from '../../../support/alert-events.ts'
import { acknowledged, closed, listedAlert, minuteMs, verified } from '../../../support/listed-alerts.ts'

const history: readonly AlertHappening[] = [
  attempted('failed'),
  attempted('delivered'),
  acknowledged(),
  verified(),
  closed(),
]

test('at any earlier instant an alert is what its events until then make it', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 1, max: 500 }), { minLength: 5, maxLength: 5 }),
      fc.integer({ min: -5, max: 2600 }),
      (gaps, minute) => {
        let at = 0
        const events = [raised(), ...history].map((happening, place): AlertEvent => {
          at += place === 0 ? 0 : (gaps[place - 1] ?? 1)
          return { alert: 1, atEpochMs: at * minuteMs, by: 'Ada', happening }
        })
        const whole = { ...alertOf(events), series: 'SP-01/settlement', point: 'SP-01' }
        const until = events.filter(({ atEpochMs }) => atEpochMs <= minute * minuteMs)
        const [then] = alertsAsOf([whole], minute * minuteMs)
        if (until.length === 0) expect(then).toBeUndefined()
        else {
          const { lastEventAtEpochMs: _, ...expected } = alertOf(until)
          expect(then).toMatchObject(expected)
        }
      },
    ),
    { seed: 6 },
  )
})

test('a level left later was still reached then; one reached later was not raised, whenever it was recorded', () => {
  const left = listedAlert(1, [], { episode: { leftAtEpochMs: 90 * minuteMs, leftBecause: 'value' } })
  expect(alertsAsOf([left], 60 * minuteMs)[0]?.episode).toMatchObject({
    leftAtEpochMs: null,
    leftBecause: null,
  })
  expect(alertsAsOf([left], 90 * minuteMs)[0]?.episode?.leftAtEpochMs).toBe(90 * minuteMs)
  const ahead = listedAlert(2, [], { episode: { crossedAtEpochMs: 100 * minuteMs } })
  expect(alertsAsOf([ahead], 60 * minuteMs)).toEqual([])
})

test('invented data, evaluated at one instant, stands as if it had been evaluated with its readings', () => {
  const episode = { crossedAtEpochMs: 10 * minuteMs, knownAtEpochMs: 20 * minuteMs }
  const invented = listedAlert(1, [], { zeroEpochMs: 900 * minuteMs, episode })
  expect(alertsAsOf([invented], 100 * minuteMs)).toEqual([])
  expect(alertsAsOf([invented], 100 * minuteMs, true)).toHaveLength(1)
  expect(alertsAsOf([invented], 19 * minuteMs, true)).toEqual([])
})

test('before the last 90 days closed alerts are missing from the list, and that is said', () => {
  const dayMs = 1440 * minuteMs
  expect(mayLackAlerts({ asOfEpochMs: 100 * dayMs }, 9 * dayMs)).toBe(true)
  expect(mayLackAlerts({ asOfEpochMs: 100 * dayMs }, 11 * dayMs)).toBe(false)
})
