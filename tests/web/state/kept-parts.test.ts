import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { FieldGuide } from '#contract/field-guide.ts'
import { keptAtHeader } from '../../../web/service-worker/kept-names.ts'
import { keptAtEpochMs } from '../../../web/state/ask-server.ts'
import { fetchFieldGuide, fieldGuide } from '../../../web/state/field-guide.ts'
import { keptParts } from '../../../web/state/kept-parts.ts'
import { openSite, refreshStates } from '../../../web/state/open-site.ts'
import { watchPublishing } from '../../../web/state/publishing.ts'
import { siteDocument } from '../../../web/state/site-document.ts'
import { presentEpochMs, smallSite, smallStates } from './small-site.ts'

const keptAt = Date.UTC(2027, 4, 20)
const verdictWithdrawals = [{ verdict: 'V-1', at: 1, author: 'B. Other', reason: 'sound' }]
let isLargeSlow = true

beforeEach(() => {
  isLargeSlow = true
  vi.stubGlobal('fetch', async (path: string, { cache }: RequestInit) => {
    const json = { 'content-type': 'application/json' }
    if (path.endsWith('/state')) return new Response(JSON.stringify(smallStates()), { headers: json })
    if (path === '/api/sites')
      return new Response(JSON.stringify([{ id: 'small', name: '' }]), { headers: json })
    if (path.endsWith('/publishing')) {
      const { revision: publishedRevision } = smallStates()
      const heard = { running: null, behind: false, publishedRevision, failedAtEpochMs: null }
      return new Response(JSON.stringify(heard), { headers: json })
    }
    const isKept = isLargeSlow || cache !== 'no-cache'
    const guide: FieldGuide = { site: 'small', asOfEpochMs: isKept ? keptAt : presentEpochMs, sensors: [] }
    const records = isKept ? smallSite() : { ...smallSite(), verdictWithdrawals }
    return new Response(JSON.stringify(path.endsWith('/field-guide') ? guide : records), {
      headers: { ...json, ...(isKept && { [keptAtHeader]: String(keptAt) }) },
    })
  })
})
afterEach(() => vi.unstubAllGlobals())

const partsShown = () => keptParts().map(({ part, keptAtEpochMs: at }) => [part, at])

test('kept records and guide under live states are said to be kept, and asked for until they are live', async () => {
  await openSite('small')
  await fetchFieldGuide('small')
  await refreshStates('small')
  expect(partsShown().sort()).toEqual([
    ['field guide', keptAt],
    ['records', keptAt],
  ])
  isLargeSlow = false
  await refreshStates('small')
  await vi.waitFor(() => expect(partsShown()).toEqual([]))
  expect(siteDocument()?.verdictWithdrawals).toEqual(verdictWithdrawals)
  expect(fieldGuide()?.asOfEpochMs).toBe(presentEpochMs)
})

test('live states do not speak for the revision of kept records', async () => {
  await openSite('small')
  expect(keptAtEpochMs(siteDocument() ?? {})).toBe(keptAt)
  isLargeSlow = false
  await watchPublishing('small')
  expect(keptAtEpochMs(siteDocument() ?? {})).toBeNull()
})
