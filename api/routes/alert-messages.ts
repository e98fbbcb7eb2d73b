import { type Context, Hono } from 'hono'
import { alertFeed } from '../alerts/alert-feed.ts'
import type { Alerts } from '../alerts/alerts.ts'
import { capMessage } from '../alerts/cap-message.ts'
import { alertOf, noAlert } from './alerts.ts'
import { noSite } from './site-must-exist.ts'

/** So many alerts stand in a feed, those changed last. */
const mostEntries = 100

export interface AlertMessageSources {
  readonly alerts: Alerts
  readonly now: () => number
  /** By which people and programs elsewhere open the page, without a slash at its end; null: as the request has it. */
  readonly address?: string | null
}

/** Alerts for other programs: messages of the Common Alerting Protocol 1.2, one by one and as an Atom feed. */
export function alertMessageRoutes({ alerts, now, address = null }: AlertMessageSources): Hono {
  const routes = new Hono()
  const from = (context: Context) => {
    const own = address ?? new URL(context.req.url).origin
    return { address: own, sender: new URL(own).host.replaceAll(/[^\w.:@-]/g, '') }
  }

  routes.get('/api/sites/:site/alerts/feed', async (context) => {
    const site = context.req.param('site')
    const { address: own, sender } = from(context)
    const messages = await alerts.capAlerts(site, { address: own, sender })
    if (!messages) return noSite(context)
    const self = `${own}/api/sites/${encodeURIComponent(site)}/alerts/feed`
    const newest = messages.toSorted((one, other) => other.sentEpochMs - one.sentEpochMs)
    const feed = alertFeed({
      id: self,
      title: `Alerts of ${newest[0]?.senderName ?? site}`,
      author: sender,
      self,
      page: `${own}/?site=${encodeURIComponent(site)}&sheet=alerts`,
      answeredEpochMs: now(),
      entries: newest.slice(0, mostEntries).map((message) => ({
        id: `${self}#${message.identifier}`,
        message,
      })),
    })
    return context.body(feed, 200, { 'content-type': 'application/atom+xml; charset=utf-8' })
  })

  routes.get('/api/sites/:site/alerts/:alert/cap', async (context) => {
    const alert = alertOf(context)
    const messages =
      alert === null ? null : await alerts.capAlerts(context.req.param('site'), from(context), alert)
    const last = messages?.at(-1)
    if (!last) return noAlert(context)
    return context.body(capMessage(last), 200, { 'content-type': 'application/cap+xml; charset=utf-8' })
  })
  return routes
}
