import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { keptAtHeader } from '../../../web/service-worker/kept-names.ts'
import { selectedAlerts } from '../../../web/state/alert-marks.ts'
import {
  alertsAtClock,
  alertsDocument,
  alertsKnown,
  alertsWaiting,
  refreshAlerts,
} from '../../../web/state/alerts.ts'
import { reportAnswer, reportNoAnswer } from '../../../web/state/connection.ts'
import { selectInstrument, selectNothing } from '../../../web/state/selection.ts'
import { jumpToPresent, restoreClock } from '../../../web/state/site-clock.ts'
import { showSite, showStates } from '../../../web/state/site-document.ts'
import { moveSiteNow } from '../../../web/state/site-now.ts'
import { alertsDocumentOf, listedAlert, minuteMs } from '../../support/listed-alerts.ts'
import { presentEpochMs, smallSite, smallStates } from './small-site.ts'

let answer: () => Response
const give = (document: unknown, headers: Record<string, string> = {}) =>
  new Response(JSON.stringify(document), { headers: { 'content-type': 'application/json', ...headers } })
const alerts = [listedAlert(1, [], { zeroEpochMs: presentEpochMs - 60 * minuteMs })]

beforeEach(() => {
  showSite(smallSite())
  showStates(smallStates())
  reportAnswer(Date.now())
  moveSiteNow(Date.now())
  vi.stubGlobal('fetch', async () => answer())
})
afterEach(() => {
  jumpToPresent()
  selectNothing()
  vi.unstubAllGlobals()
})

test('a list that never came, was refused, was kept or has grown old never reads as none', async () => {
  expect(alertsKnown().kind).toBe('unknown')
  expect(alertsWaiting()).toBeNull()
  answer = () => new Response('', { status: 503, statusText: 'busy' })
  await expect(refreshAlerts('small')).rejects.toThrow('503')
  expect(alertsKnown()).toMatchObject({ kind: 'unknown', isRefused: true })
  expect(alertsDocument()).toBeNull()

  answer = () => give(alertsDocumentOf([], presentEpochMs))
  await refreshAlerts('small')
  expect(alertsKnown().kind).toBe('present')
  expect(alertsWaiting()).toBe(0)

  moveSiteNow(Date.now() + 4 * minuteMs)
  expect(alertsKnown().kind).toBe('last-known')
  expect(alertsWaiting()).toBeNull()

  moveSiteNow(Date.now())
  reportNoAnswer(Date.now())
  expect(alertsWaiting()).toBeNull()
  reportAnswer(Date.now())
  expect(alertsWaiting()).toBe(0)

  answer = () =>
    give(alertsDocumentOf([], presentEpochMs), { [keptAtHeader]: String(Date.now() - 50 * minuteMs) })
  await refreshAlerts('small')
  expect(alertsKnown()).toMatchObject({
    kind: 'last-known',
    sentence: expect.stringContaining('this device kept'),
  })
  expect(alertsWaiting()).toBeNull()
})

test('what the device kept stands until the server, however slow, has given its own', async () => {
  const given = [
    give(alertsDocumentOf([], presentEpochMs), { [keptAtHeader]: String(Date.now()) }),
    give(alertsDocumentOf(alerts, presentEpochMs)),
  ]
  answer = () => given.shift() ?? new Response('', { status: 500 })
  await refreshAlerts('small')
  expect(alertsKnown().kind).toBe('present')
  expect(alertsWaiting()).toBe(1)
})

test('of another site nothing is shown, and nothing is known', async () => {
  answer = () => give(alertsDocumentOf(alerts, presentEpochMs))
  await refreshAlerts('small')
  expect(alertsWaiting()).toBe(1)
  showSite({ ...smallSite(), facts: { ...smallSite().facts, id: 'other' } })
  expect(alertsDocument()).toBeNull()
  expect(alertsKnown().kind).toBe('unknown')
})

test('the site clock is followed: before it was raised there is none, and that is marked as the past', async () => {
  answer = () => give(alertsDocumentOf(alerts, presentEpochMs))
  await refreshAlerts('small')
  selectInstrument('SP-1')
  expect(selectedAlerts()).toHaveLength(1)
  expect(alertsAtClock()?.isPast).toBe(false)
  restoreClock(presentEpochMs - 61 * minuteMs)
  expect(alertsAtClock()).toMatchObject({ isPast: true, alerts: [] })
  expect(selectedAlerts()).toEqual([])
  restoreClock(presentEpochMs - 59 * minuteMs)
  expect(selectedAlerts()).toHaveLength(1)
  // How many need somebody is told of now, whatever the clock shows.
  expect(alertsWaiting()).toBe(1)
})
