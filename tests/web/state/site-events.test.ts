import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { eventsLostSinceEpochMs } from '../../../web/state/events-line.ts'
import { hearSiteEvents, readEvent, type Said } from '../../../web/state/site-events.ts'

/** Opens, breaks and speaks when the test says so. */
class FakeSource {
  static readonly CLOSED = 2
  static made: FakeSource[] = []
  readyState = 0
  onopen = () => {}
  onerror = () => {}
  readonly heard = new Map<string, (event: { data: string }) => void>()
  readonly path: string
  constructor(path: string) {
    this.path = path
    FakeSource.made.push(this)
  }
  addEventListener(kind: string, hear: (event: { data: string }) => void) {
    this.heard.set(kind, hear)
  }
  close() {
    this.readyState = FakeSource.CLOSED
  }
}
let end: AbortController
const settle = () => vi.advanceTimersByTimeAsync(0)

beforeEach(() => {
  vi.useFakeTimers()
  FakeSource.made = []
  vi.stubGlobal('EventSource', FakeSource)
  // One lock of a name at a time, as the Web Locks API has it.
  const waiting = new Map<string, Promise<unknown>>()
  vi.stubGlobal('navigator', {
    locks: {
      request: (name: string, _options: unknown, hold: () => Promise<unknown>) => {
        const turn = (waiting.get(name) ?? Promise.resolve()).then(hold)
        waiting.set(name, turn)
        return turn
      },
    },
  })
  vi.stubGlobal('BroadcastChannel', Channel)
  end = new AbortController()
})
afterEach(() => {
  end.abort()
  Channel.all.clear()
  vi.useRealTimers()
  vi.unstubAllGlobals()
})

/** Hands a message to every other channel of the name, in the same turn. */
class Channel {
  static readonly all = new Set<Channel>()
  onmessage: ((event: { data: unknown }) => void) | null = null
  readonly name: string
  constructor(name: string) {
    this.name = name
    Channel.all.add(this)
  }
  postMessage(data: unknown) {
    for (const other of Channel.all)
      if (other !== this && other.name === this.name) other.onmessage?.({ data })
  }
  close() {
    Channel.all.delete(this)
  }
}

test('an event is handed on; one that this page does not know is not', async () => {
  const said: Said[] = []
  hearSiteEvents('small quay', (one) => said.push(one), end.signal)
  await settle()
  const [source] = FakeSource.made
  expect(source?.path).toBe('/api/sites/small%20quay/events')
  source?.onopen()
  const event = { kind: 'alerts', latest: 7, raised: [3] }
  source?.heard.get('alerts')?.({ data: JSON.stringify(event) })
  source?.heard.get('published')?.({ data: '{"kind":"weather"}' })
  expect(said).toEqual([{ kind: 'open' }, { kind: 'event', event }])
  expect(readEvent('not JSON')).toBeNull()
})

test('a lost line is told with its first moment, and one that was refused is tried again', async () => {
  const said: Said[] = []
  hearSiteEvents('small', (one) => said.push(one), end.signal)
  await settle()
  const lostAt = Date.now()
  FakeSource.made[0]?.onerror()
  await vi.advanceTimersByTimeAsync(1000)
  FakeSource.made[0]?.onerror()
  expect(eventsLostSinceEpochMs()).toBe(lostAt)
  FakeSource.made[0]?.close()
  FakeSource.made[0]?.onerror()
  await vi.advanceTimersByTimeAsync(10_000)
  expect(FakeSource.made).toHaveLength(2)
  FakeSource.made[1]?.onopen()
  expect(eventsLostSinceEpochMs()).toBeNull()
  expect(said.at(-1)).toEqual({ kind: 'open' })
})

test('of several pages of a browser one holds the line and tells the others, until it is closed', async () => {
  const [first, second]: Said[][] = [[], []]
  const firstEnd = new AbortController()
  hearSiteEvents('small', (one) => first?.push(one), firstEnd.signal)
  await settle()
  FakeSource.made[0]?.onopen()
  hearSiteEvents('small', (one) => second?.push(one), end.signal)
  await settle()
  expect(FakeSource.made).toHaveLength(1)
  expect(second).toEqual([{ kind: 'open' }])
  FakeSource.made[0]?.heard.get('published')?.({ data: '{"kind":"published","revision":4}' })
  expect(second?.at(-1)).toEqual({ kind: 'event', event: { kind: 'published', revision: 4 } })
  firstEnd.abort()
  await vi.advanceTimersByTimeAsync(10_000)
  expect(FakeSource.made).toHaveLength(2)
  FakeSource.made[1]?.onopen()
  expect(second?.at(-1)).toEqual({ kind: 'open' })
  expect(first?.filter(({ kind }) => kind === 'event')).toHaveLength(1)
})
