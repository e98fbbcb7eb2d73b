import { Hono } from 'hono'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { SiteEvent } from '#contract/alerts.ts'
import { createListeners } from '../../../api/alerts/listeners.ts'
import { guardRequests } from '../../../api/routes/guard-requests.ts'
import { siteEventRoutes } from '../../../api/routes/site-events.ts'
import { type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'

let open: OpenAccounts
let tell: (event: SiteEvent) => void
let app: Hono
const opened: ReadableStreamDefaultReader<Uint8Array>[] = []
beforeEach(async () => {
  open = await openAccounts()
  const listeners = createListeners(() => {})
  tell = (event) => listeners.tell('small-quay', event)
  app = new Hono()
  app.use(
    guardRequests({ access: open.access, ingestTokenSha256: null, loopbackOnly: true, report: () => {} }),
  )
  app.route(
    '/',
    siteEventRoutes({ alerts: listeners, access: open.access, store: open.store, heartbeatMs: 30 }),
  )
})
afterEach(async () => {
  for (const reader of opened.splice(0)) await reader.cancel()
  await open.close()
})

async function line(cookie = '') {
  const answer = await app.request('/api/sites/small-quay/events', { headers: { cookie } })
  const reader = answer.body?.getReader()
  if (reader && answer.status === 200) opened.push(reader)
  const decoder = new TextDecoder()
  let text = ''
  return {
    answer,
    /** Reads on until the text has come; null: the line ended before. */
    async until(part: string | RegExp): Promise<string | null> {
      for (;;) {
        if (typeof part === 'string' ? text.includes(part) : part.test(text)) return text
        const next = await reader?.read()
        if (!next || next.done) return null
        text += decoder.decode(next.value)
      }
    },
  }
}

describe('events of a site', () => {
  it('come as they happen, in the form of the HTML standard, with something in between', async () => {
    const { answer, until } = await line()
    expect(answer.headers.get('content-type')).toMatch('text/event-stream')
    await until(': open\n\n')
    await until(': still here\n\n')
    tell({ kind: 'alerts', latest: 7, raised: [3] })
    expect(
      await until('\n\nevent: alerts\ndata: {"kind":"alerts","latest":7,"raised":[3]}\n\n'),
    ).not.toBeNull()
    tell({ kind: 'published', revision: 12 })
    expect(await until('event: published\ndata: {"kind":"published","revision":12}\n\n')).not.toBeNull()
  })

  it('that come faster than they are taken are told together, none of them lost', async () => {
    const { until } = await line()
    await until(': open\n\n')
    for (let latest = 1; latest <= 50; latest++) tell({ kind: 'alerts', latest, raised: [latest] })
    const text = (await until(/"latest":50/)) ?? ''
    const events = [...text.matchAll(/^data: (.*)$/gm)].map(([, data]) => JSON.parse(data ?? ''))
    expect(events.flatMap(({ raised }) => raised)).toEqual(Array.from({ length: 50 }, (_, i) => i + 1))
    expect(events.length).toBeLessThan(50)
  })

  it('end with the session', async () => {
    await open.join('viewer', 'small-quay', 'viewer')
    const cookie = await open.cookieOf('viewer')
    const { until } = await line(cookie)
    await until(': still here\n\n')
    const { id } = (await open.store.findSignIn('viewer'))?.account ?? { id: '' }
    const [session] = await open.store.listSessions(id)
    await open.access.signOut((await open.access.findCaller(cookie.split('=')[1] ?? '')) as never)
    expect(session).toBeDefined()
    expect(await until('never said')).toBeNull()
  })

  it('end for whoever had no account once there is one', async () => {
    const { until } = await line()
    await until(': open\n\n')
    await open.join('chief', '*', 'administrator')
    expect(await until('never said')).toBeNull()
  })

  it('are told on so many lines from one address, and again when one ends', async () => {
    const lines = await Promise.all(Array.from({ length: 40 }, () => line()))
    expect(lines.every(({ answer }) => answer.status === 200)).toBe(true)
    const refused = await line()
    expect(refused.answer.status).toBe(429)
    expect(refused.answer.headers.get('retry-after')).toBe('60')
    await opened.shift()?.cancel()
    await new Promise((done) => setTimeout(done, 50))
    expect((await line()).answer.status).toBe(200)
  })

  it('asked for by their head alone take no line', async () => {
    for (let i = 0; i < 41; i++) {
      const head = await app.request('/api/sites/small-quay/events', { method: 'HEAD' })
      expect([head.status, head.headers.get('content-type')]).toEqual([200, 'text/event-stream'])
    }
    expect((await line()).answer.status).toBe(200)
  })

  it('are refused for a site that is not there', async () => {
    expect((await app.request('/api/sites/third-quay/events')).status).toBe(404)
  })
})
