import { afterEach, expect, test, vi } from 'vitest'
import { areRecordsUnfetched, watchPublishing } from '../../../web/state/publishing.ts'
import { showSite, showStates, siteDocument } from '../../../web/state/site-document.ts'
import { smallSite, smallStates } from './small-site.ts'

afterEach(() => vi.unstubAllGlobals())

test('what another page saved is fetched, though it was worked out between two questions', async () => {
  const { revision } = smallStates()
  showSite(smallSite())
  showStates(smallStates())
  const verdictWithdrawals = [{ verdict: 'V-1', at: 1, author: 'B. Other', reason: 'sound' }]
  let published = revision
  const asked: string[] = []
  vi.stubGlobal('fetch', async (path: string) => {
    asked.push(path)
    const answer = path.endsWith('/publishing')
      ? { running: null, behind: false, publishedRevision: published, failedAtEpochMs: null }
      : path.endsWith('/state')
        ? { ...smallStates(), revision: published }
        : { ...smallSite(), verdictWithdrawals }
    return new Response(JSON.stringify(answer), { headers: { 'content-type': 'application/json' } })
  })
  await watchPublishing('small')
  expect(asked).toHaveLength(1)
  expect(siteDocument()?.verdictWithdrawals).toEqual([])
  published += 1
  await watchPublishing('small')
  expect(siteDocument()?.verdictWithdrawals).toEqual(verdictWithdrawals)
  const before = asked.length
  await watchPublishing('small')
  expect(asked).toHaveLength(before + 1)
})

test('records that were published and cannot be fetched are said to be from before, and asked for again', async () => {
  showSite(smallSite())
  showStates(smallStates())
  let isLargeLost = false
  let published = 100
  vi.stubGlobal('fetch', async (path: string) => {
    if (path === '/api/sites/small' && isLargeLost) throw new TypeError('lost')
    const answer = path.endsWith('/publishing')
      ? { running: null, behind: false, publishedRevision: published, failedAtEpochMs: null }
      : path.endsWith('/state')
        ? { ...smallStates(), revision: published }
        : smallSite()
    return new Response(JSON.stringify(answer), { headers: { 'content-type': 'application/json' } })
  })
  await watchPublishing('small')
  expect(areRecordsUnfetched()).toBe(false)
  published += 1
  isLargeLost = true
  await expect(watchPublishing('small')).rejects.toThrow('did not answer')
  expect(areRecordsUnfetched()).toBe(true)
  isLargeLost = false
  await watchPublishing('small')
  expect(areRecordsUnfetched()).toBe(false)
})
