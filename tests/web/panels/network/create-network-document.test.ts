import { createRoot } from 'solid-js'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { NetworkDocument } from '#contract/network-document.ts'
import { createNetworkDocument } from '../../../../web/panels/network/create-network-document.ts'
import { jumpToPresent, restoreClock } from '../../../../web/state/site-clock.ts'
import { showSite, showStates } from '../../../../web/state/site-document.ts'
import { moveSiteNow } from '../../../../web/state/site-now.ts'
import { presentEpochMs, smallSite, smallStates } from '../../state/small-site.ts'

const minuteMs = 60_000
let asked: string[] = []
let answers = true
let stop = () => {}

beforeEach(() => {
  vi.useFakeTimers({ now: presentEpochMs })
  jumpToPresent()
  const site = smallSite()
  showSite({ ...site, facts: { ...site.facts, presentEpochMs: null } })
  showStates(smallStates())
  moveSiteNow(presentEpochMs)
  asked = []
  answers = true
  vi.stubGlobal('fetch', async (path: string) => {
    asked.push(path)
    if (!answers) throw new TypeError('no network')
    const document: NetworkDocument = {
      site: 'small',
      revision: 1,
      asOfEpochMs: Date.now(),
      fromEpochMs: 0,
      loggers: [],
      wiringConflicts: [],
      singlePoints: [],
      calibrations: { due: [], withoutDate: 0, sensors: 0 },
    }
    return new Response(JSON.stringify(document), { headers: { 'content-type': 'application/json' } })
  })
})
afterEach(() => {
  stop()
  vi.unstubAllGlobals()
  vi.useRealTimers()
})

const create = () =>
  createRoot((dispose) => {
    stop = dispose
    return createNetworkDocument()
  })

test('the present is asked for again though nothing is published, a past clock is not', async () => {
  const network = create()
  await vi.advanceTimersByTimeAsync(11 * minuteMs)
  expect(asked).toHaveLength(3)
  expect(network.document()?.asOfEpochMs).toBe(presentEpochMs + 10 * minuteMs)
  restoreClock(presentEpochMs - 60 * minuteMs)
  await vi.advanceTimersByTimeAsync(11 * minuteMs)
  expect(asked).toHaveLength(4)
})

test('what stands while the server does not answer says when it is old', async () => {
  const network = create()
  await vi.advanceTimersByTimeAsync(0)
  answers = false
  await vi.advanceTimersByTimeAsync(29 * minuteMs)
  moveSiteNow(Date.now())
  expect(network.ageSentence()).toBeNull()
  await vi.advanceTimersByTimeAsync(151 * minuteMs)
  moveSiteNow(Date.now())
  expect(network.ageSentence()).toBe('This is 3 h old; what fell silent since is not in it.')
  expect(network.trouble()).toBeNull()
  answers = true
  await vi.advanceTimersByTimeAsync(6 * minuteMs)
  moveSiteNow(Date.now())
  expect(network.ageSentence()).toBeNull()
})
