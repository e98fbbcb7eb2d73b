import { type Context, Hono } from 'hono'
import { type SSEStreamingApi, streamSSE } from 'hono/streaming'
import type { SiteEvent } from '#contract/alerts.ts'
import { mayAt } from '#domain/access/membership.ts'
import type { Access } from '../access/create-access.ts'
import type { Alerts } from '../alerts/alerts.ts'
import type { Store } from '../store/store.ts'
import { connectionOf } from './connection-of.ts'
import { linkToken } from './link-cookie.ts'
import { problem } from './problem.ts'
import { sessionToken } from './session-cookie.ts'
import { siteMustExist } from './site-must-exist.ts'

export interface SiteEventSources {
  readonly alerts: Pick<Alerts, 'listen'>
  readonly access: Access
  readonly store: Pick<Store, 'getSite'>
  readonly behindTls?: boolean
  /** Milliseconds after which something is sent where nothing happened, so that a broken line is noticed on both sides. */
  readonly heartbeatMs?: number
}

/** Lines that one address may hold at once, and all together: a page shares one among its tabs. */
const mostByAddress = 40
const mostInAll = 1000

/**
 * What happens at a site, as it happens (server-sent events of the HTML standard). Each says only what is worth asking for
 * again, so one that was missed is made good by asking. The line ends when the session, account or link does.
 */
export function siteEventRoutes(sources: SiteEventSources): Hono {
  const routes = new Hono()
  const open = new Map<string, number>()
  let inAll = 0

  routes.get('/api/sites/:site/events', siteMustExist(sources), (context) => {
    const { address } = connectionOf(context, sources.behindTls ?? false)
    const ofAddress = open.get(address) ?? 0
    if (ofAddress >= mostByAddress || inAll >= mostInAll) {
      context.header('retry-after', '60')
      return problem(
        context,
        429,
        'Too many open pages',
        'So many pages are open here that no more are told of events as they happen. Close some; this page asks by itself every few minutes.',
      )
    }
    const count = (by: 1 | -1) => {
      inAll += by
      const left = (open.get(address) ?? 0) + by
      if (left > 0) open.set(address, left)
      else open.delete(address)
    }
    // Asked for its head alone it has no reader who could ever end it.
    if (context.req.method === 'HEAD')
      return context.body(null, 200, { 'content-type': 'text/event-stream', 'cache-control': 'no-cache' })
    count(1)
    // A proxy that gathers answers before it passes them on would gather this one for ever.
    context.header('x-accel-buffering', 'no')
    return streamSSE(context, (stream) => tellOn(stream, context, sources).finally(() => count(-1)))
  })
  return routes
}

async function tellOn(
  stream: SSEStreamingApi,
  context: Context,
  { alerts, access, behindTls = false, heartbeatMs = 20_000 }: SiteEventSources,
): Promise<void> {
  const site = context.req.param('site') ?? ''
  let waiting: readonly SiteEvent[] = []
  let wake = () => {}
  const stop = alerts.listen(site, (event) => {
    waiting = together(waiting, event)
    wake()
  })
  stream.onAbort(() => wake())
  try {
    await stream.write(': open\n\n')
    while (!stream.aborted) {
      if (waiting.length === 0)
        await new Promise<void>((done) => {
          const timer = setTimeout(done, heartbeatMs)
          timer.unref()
          wake = () => {
            clearTimeout(timer)
            done()
          }
        })
      // Where it cannot be known the line ends: whoever asks again is told why.
      const mayHear = !stream.aborted && mayStillHear(context, site, access, behindTls).catch(() => false)
      if (!(await mayHear)) return
      const events = waiting
      waiting = []
      if (events.length === 0) await stream.write(': still here\n\n')
      for (const event of events) await stream.writeSSE({ event: event.kind, data: JSON.stringify(event) })
    }
  } finally {
    stop()
  }
}

/** At most one event of each kind waits for a receiver that is slow. */
function together(waiting: readonly SiteEvent[], event: SiteEvent): readonly SiteEvent[] {
  const before = waiting.find(({ kind }) => kind === event.kind)
  const others = waiting.filter((one) => one !== before)
  return before?.kind === 'alerts' && event.kind === 'alerts'
    ? [...others, { ...event, raised: [...before.raised, ...event.raised] }]
    : [...others, event]
}

/** The guard let the line begin; whatever it went by may have ended since. */
async function mayStillHear(
  context: Context,
  site: string,
  access: Access,
  behindTls: boolean,
): Promise<boolean> {
  if (context.get('standing') !== 'accounts') return !(await access.hasAccounts())
  const connection = connectionOf(context, behindTls)
  const [session, link] = [sessionToken(context, connection), linkToken(context, connection)]
  const caller = session ? await access.findCaller(session) : null
  if (caller && mayAt(caller.account.memberships, site, 'read-approved')) return true
  return link !== undefined && (await access.shareLinks.find(link))?.link.site === site
}
