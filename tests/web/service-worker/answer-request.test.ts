import { beforeEach, expect, test } from 'vitest'
import { answerRequest, type Surroundings } from '../../../web/service-worker/answer-request.ts'
import { keepFiles } from '../../../web/service-worker/keep-files.ts'
import { keptAtHeader } from '../../../web/service-worker/kept-names.ts'

const origin = 'http://site.test'

/** The part of a browser's cache that the worker uses. */
class MemoryCache {
  readonly kept = new Map<string, Response>()
  async match(request: RequestInfo | URL) {
    return this.kept
      .get(new URL(typeof request === 'object' && 'url' in request ? request.url : request, origin).href)
      ?.clone()
  }
  async put(request: RequestInfo | URL, answer: Response) {
    this.kept.set(new URL(String(request), origin).href, answer)
  }
}

let stores: Map<string, MemoryCache>
let online: boolean
let around: Surroundings
beforeEach(() => {
  stores = new Map()
  online = true
  const open = async (name: string) => {
    const store = stores.get(name) ?? new MemoryCache()
    stores.set(name, store)
    return store as unknown as Cache
  }
  around = {
    origin,
    caches: { open, match: async () => undefined, keys: async () => [...stores.keys()] },
    fetch: async (request) => {
      if (!online) throw new TypeError('no network')
      return new Response(`of the server: ${new URL(request.url).pathname}`)
    },
    now: () => 1234,
    patienceMs: 20,
  }
})

const ask = async (path: string, init: RequestInit = {}) => {
  const answer = await answerRequest(new Request(`${origin}${path}`, init), around)
  return (
    answer && {
      text: await answer.clone().text(),
      keptAt: answer.headers.get(keptAtHeader),
      status: answer.status,
    }
  )
}

test('documents come from the network, and as kept, with their hour, when there is none', async () => {
  expect(await ask('/api/sites/quay/state')).toMatchObject({
    text: 'of the server: /api/sites/quay/state',
    keptAt: null,
  })
  online = false
  expect(await ask('/api/sites/quay/state')).toMatchObject({
    text: 'of the server: /api/sites/quay/state',
    keptAt: '1234',
  })
  await expect(ask('/api/sites/other/state')).rejects.toThrow('no network')
})

test('frozen documents never change: what is kept stands for the server’s own; what was corrected since is asked for', async () => {
  const set = '/api/sites/quay/frozen/0123456789abcdef'
  await ask(`${set}/state`)
  online = false
  expect(await ask(`${set}/state`)).toEqual({
    text: `of the server: ${set}/state`,
    keptAt: null,
    status: 200,
  })
  await expect(ask(`${set}/site`)).rejects.toThrow('no network')
  expect(await ask(`${set}/since`)).toBeNull()
  expect(await ask('/api/sites/quay/frozen')).toBeNull()
})

test('the frozen network is the server’s to give while it can be asked', async () => {
  const network = '/api/sites/quay/frozen/0123456789abcdef/network'
  await ask(network)
  const { fetch } = around
  around = { ...around, fetch: async () => new Response('not yours', { status: 403 }) }
  expect(await ask(network)).toMatchObject({ status: 403 })
  around = { ...around, fetch }
  online = false
  expect(await ask(network)).toMatchObject({ text: `of the server: ${network}`, status: 200 })
})

test('the list of alerts is kept with its hour; the line of events and single records are not', async () => {
  await ask('/api/sites/quay/alerts')
  online = false
  expect(await ask('/api/sites/quay/alerts')).toMatchObject({ keptAt: '1234' })
  expect(await ask('/api/sites/quay/alerts/7')).toBeNull()
  expect(await ask('/api/sites/quay/events')).toBeNull()
})

test('a network that hangs is not waited for where there is something kept', async () => {
  await ask('/api/sites')
  around = { ...around, fetch: () => new Promise(() => undefined) }
  expect(await ask('/api/sites')).toMatchObject({ keptAt: '1234' })
})

test('asked for the newer one of what is kept, a slow network is waited for, and a lost one answered as kept', async () => {
  await ask('/api/sites/quay')
  const { fetch } = around
  const slow = async (request: Request) => {
    await new Promise((resolve) => setTimeout(resolve, 60))
    return fetch(request)
  }
  around = { ...around, fetch: slow }
  expect(await ask('/api/sites/quay')).toMatchObject({ keptAt: '1234' })
  expect(await ask('/api/sites/quay', { cache: 'no-cache' })).toMatchObject({ keptAt: null })
  online = false
  expect(await ask('/api/sites/quay', { cache: 'no-cache' })).toMatchObject({ keptAt: '1234' })
})

test('what is not to be answered from a device never is', async () => {
  expect(await ask('/api/sites/quay/field-entries?after=0')).toBeNull()
  expect(await ask('/api/sites/quay/verdicts', { method: 'POST' })).toBeNull()
  expect(await answerRequest(new Request('http://elsewhere.test/x'), around)).toBeNull()
})

test('files of the page come from what is kept, else from the network', async () => {
  const shell = await around.caches.open('stillground-shell-1')
  await shell.put('/assets/a.js', new Response('kept'))
  expect((await ask('/assets/a.js'))?.text).toBe('kept')
  expect((await ask('/assets/b.js'))?.text).toContain('of the server')
})

test('a page that keeps a newer version is given the server’s files, not those of the older one', async () => {
  const shell = await around.caches.open('stillground-shell-1')
  await shell.put('/index.html', new Response('older'))
  const request = new Request(`${origin}/index.html`, { cache: 'reload' })
  expect(answerRequest(request, around)).toBeNull()
  expect((await ask('/index.html'))?.text).toBe('older')
})

test('files are taken over from another build only under hashed names, and a failure keeps what came', async () => {
  const older = await around.caches.open('stillground-shell-1')
  await older.put('/assets/a-1.js', new Response('same'))
  await older.put('/index.html', new Response('older'))
  const asked: string[] = []
  const device = {
    caches: { ...around.caches, match: (path: string) => older.match(path) } as unknown as CacheStorage,
    fetch: async (path: string) => {
      asked.push(path)
      return new Response(`new ${path}`, { status: path === '/assets/c-3.js' ? 500 : 200 })
    },
  }
  const files = ['/assets/a-1.js', '/index.html', '/assets/c-3.js'].map((path) => ({ path, bytes: 1 }))
  const keep = () => keepFiles(device, { version: '2', files }, 'stillground-shell-2')
  await expect(keep()).rejects.toThrow('/assets/c-3.js could not be kept: the server answered 500.')
  expect(asked).toEqual(['/index.html', '/assets/c-3.js'])
  const newer = await around.caches.open('stillground-shell-2')
  expect(await (await newer.match('/index.html'))?.text()).toBe('new /index.html')
  expect(await (await newer.match('/assets/a-1.js'))?.text()).toBe('same')
  await expect(keep()).rejects.toThrow()
  expect(asked.slice(2)).toEqual(['/assets/c-3.js'])
})

test('kept readings answer byte ranges as the server would', async () => {
  const store = await around.caches.open('stillground-slices-1')
  await store.put('/slices/quay/raw-2027-01.0123456789abcdef.duckdb', new Response('0123456789'))
  const range = async (bytes: string) => {
    const answer = await ask('/slices/quay/raw-2027-01.0123456789abcdef.duckdb', {
      headers: { range: bytes },
    })
    return [answer?.status, answer?.text]
  }
  expect(await range('bytes=2-4')).toEqual([206, '234'])
  expect(await range('bytes=8-99')).toEqual([206, '89'])
  expect(await range('bytes=-3')).toEqual([206, '789'])
  expect(await range('bytes=4-')).toEqual([206, '456789'])
  expect(await range('bytes=10-12')).toEqual([416, ''])
  expect(await range('bytes=4-2')).toEqual([416, ''])
})
