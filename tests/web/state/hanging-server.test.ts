import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { noticeSilence, reportAnswer, unansweredSinceEpochMs } from '../../../web/state/connection.ts'
import { refreshStates } from '../../../web/state/open-site.ts'
import { watchPublishing } from '../../../web/state/publishing.ts'
import { showSite, showStates } from '../../../web/state/site-document.ts'
import { smallSite, smallStates } from './small-site.ts'

const asked: string[] = []

beforeEach(() => {
  vi.useFakeTimers()
  asked.length = 0
  showSite(smallSite())
  showStates(smallStates())
  vi.stubGlobal('fetch', (path: string, { signal }: RequestInit) => {
    asked.push(path)
    return new Promise((_, reject) => {
      signal?.addEventListener('abort', () => reject(new DOMException('aborted', 'AbortError')))
    })
  })
})
afterEach(() => {
  vi.unstubAllGlobals()
  vi.useRealTimers()
})

test('a server that hangs is told as one that does not answer, though the next question ends the one before', async () => {
  const answeredAt = Date.now()
  reportAnswer(answeredAt)
  const first = refreshStates('small').catch(() => undefined)
  await vi.advanceTimersByTimeAsync(29_000)
  void refreshStates('small').catch(() => undefined)
  await first
  expect(unansweredSinceEpochMs()).toBe(answeredAt)
})

test('a question about publishing that hangs does not stop the next one', async () => {
  const first = watchPublishing('small').catch((cause) => cause)
  await vi.advanceTimersByTimeAsync(30_000)
  expect(String(await Promise.race([first, 'still hanging']))).toContain('did not answer')
  void watchPublishing('small').catch(() => undefined)
  expect(asked).toHaveLength(2)
})

test('no answer for twice the time between questions is silence, whatever became of them', () => {
  const answeredAt = Date.now()
  reportAnswer(answeredAt)
  noticeSilence(answeredAt + 59_000, 60_000)
  expect(unansweredSinceEpochMs()).toBeNull()
  noticeSilence(answeredAt + 61_000, 60_000)
  expect(unansweredSinceEpochMs()).toBe(answeredAt)
})
