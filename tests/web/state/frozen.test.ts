import { createRoot } from 'solid-js'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import { routeRules } from '../../../api/access/route-rules.ts'
import { createNetworkDocument } from '../../../web/panels/network/create-network-document.ts'
import { alertsKnown, alertsNowEpochMs, refreshAlerts } from '../../../web/state/alerts.ts'
import { askServer, sendServer, sentenceOf } from '../../../web/state/ask-server.ts'
import { readKnownEntries } from '../../../web/state/field-work.ts'
import {
  cutOffEpochMs,
  isBeyondFrozen,
  notInFrozenSentence,
  readFromFrozen,
  readFromPresent,
} from '../../../web/state/frozen.ts'
import { openFrozen } from '../../../web/state/open-frozen.ts'
import { refreshSite, refreshStates, sitePath } from '../../../web/state/open-site.ts'
import { play, playing } from '../../../web/state/playback.ts'
import { watchPublishing } from '../../../web/state/publishing.ts'
import {
  clockEpochMs,
  isAtPresent,
  jumpToPresent,
  knowSpan,
  restoreClock,
  scrubTo,
  spanEpochMs,
} from '../../../web/state/site-clock.ts'
import { siteNowEpochMs } from '../../../web/state/site-now.ts'
import { areStatesOld } from '../../../web/state/states-age.ts'
import { presentEpochMs, smallSite, smallStates } from './small-site.ts'

const set = '0123456789abcdef'
const frozen: FrozenSet = {
  id: set,
  site: 'small',
  cutOffEpochMs: presentEpochMs,
  frozenAtEpochMs: presentEpochMs,
  frozenBy: 'A. Tester',
  revision: 1,
  software: '0',
  readings: { all: 100, provisional: 62 },
  parts: [],
}
const hourMs = 3_600_000
const asked: string[] = []

beforeEach(() => {
  asked.length = 0
  jumpToPresent()
  knowSpan(null)
  vi.stubGlobal('fetch', async (path: string) => {
    asked.push(path)
    const part = /\/frozen\/[0-9a-f]{16}(\/\w+)?$/.exec(path)?.[1]
    const answers: Record<string, unknown> = {
      '/site': smallSite(),
      '/state': smallStates(),
      '/alerts': { site: 'small', asOfEpochMs: presentEpochMs, alerts: [], unknown: [] },
      '/network': { site: 'small', asOfEpochMs: presentEpochMs, loggers: [] },
    }
    return Response.json(
      path === '/api/sites' ? [{ id: 'small', name: 'Small' }] : (answers[part ?? ''] ?? frozen),
    )
  })
})
afterEach(() => {
  readFromPresent()
  vi.unstubAllGlobals()
})

test('a page that reads from a frozen set asks nothing of the site outside the set, whatever is opened', async () => {
  await openFrozen('small', set)
  await refreshStates('small')
  await refreshSite('small')
  await refreshAlerts('small')
  await watchPublishing('small').catch(() => undefined)
  await readKnownEntries('small')
  const endNetwork = createRoot((end) => {
    createNetworkDocument()
    return end
  })
  for (const part of ['/trail?series=1', '/approvals', '/field-entries', '/events', '/batches'])
    await askServer(sitePath('small', part)).catch(() => undefined)
  await sendServer(sitePath('small', '/verdicts'), {}).catch(() => undefined)
  await vi.waitFor(() => expect(asked).toContain(`/api/sites/small/frozen/${set}/network`))
  endNetwork()
  const outside = asked.filter((path) => !path.startsWith(`/api/sites/small/frozen/${set}`))
  expect(outside).toEqual(['/api/sites'])
  expect(new Set(asked.map((path) => path.split('/').at(-1)))).toEqual(
    new Set([set, 'site', 'state', 'alerts', 'network', 'sites']),
  )
})

test('what is refused says that it is not part of the frozen data', async () => {
  readFromFrozen(set)
  const said = await askServer(sitePath('small', '/trail')).catch(sentenceOf)
  expect(said).toBe(notInFrozenSentence)
  expect(asked).toEqual([])
})

test('of all routes that the server has at a site, only frozen sets, meetings, minutes and reports are let through', () => {
  readFromFrozen(set)
  const paths = Object.keys(routeRules)
    .map((route) => route.split(' ')[1] ?? '')
    .filter((path) => path.startsWith('/api/sites/:site'))
    .map((path) => path.replace(/:\w+/g, 'x'))
  expect(paths.length).toBeGreaterThan(30)
  for (const path of paths) {
    const first = path.split('/')[4] ?? ''
    const isOfMeetings = ['frozen', 'meetings', 'minutes', 'reports'].includes(first)
    expect(isBeyondFrozen(path), path).toBe(!isOfMeetings)
    expect(isBeyondFrozen(`${path}?at=2027-01-01`), path).toBe(!isOfMeetings)
  }
  expect(isBeyondFrozen('/api/audit')).toBe(true)
  expect(isBeyondFrozen('/api/me')).toBe(false)
})

test('no clock passes the cut-off, by whatever way', async () => {
  const cut = presentEpochMs - 5 * hourMs
  await openFrozen('small', set)
  const { showFrozenSet } = await import('../../../web/state/frozen.ts')
  showFrozenSet({ ...frozen, cutOffEpochMs: cut })
  expect(cutOffEpochMs()).toBe(cut)
  restoreClock(presentEpochMs + 100 * hourMs)
  expect(clockEpochMs()).toBe(cut)
  expect(isAtPresent()).toBe(true)
  scrubTo(presentEpochMs)
  expect(clockEpochMs()).toBe(cut)
  knowSpan({ fromEpochMs: 0, untilEpochMs: presentEpochMs + 100 * hourMs })
  expect(spanEpochMs().untilEpochMs).toBe(cut)
  expect(siteNowEpochMs()).toBe(cut)
  vi.useFakeTimers()
  scrubTo(cut - hourMs)
  play()
  vi.advanceTimersByTime(60_000)
  vi.useRealTimers()
  expect(playing()).toBe(false)
  expect(clockEpochMs()).toBe(cut)
})

test('frozen data do not grow old', async () => {
  await openFrozen('small', set)
  await refreshAlerts('small')
  expect(areStatesOld()).toBe(false)
  expect(alertsKnown().kind).toBe('present')
  expect(alertsNowEpochMs()).toBe(presentEpochMs)
})

test('at the present nothing is led anywhere', () => {
  expect(sitePath('small')).toBe('/api/sites/small')
  expect(sitePath('small', '/state')).toBe('/api/sites/small/state')
  expect(isBeyondFrozen('/api/sites/small/trail')).toBe(false)
})
