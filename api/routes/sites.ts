import { type Context, Hono } from 'hono'
import { knowsSite } from '#domain/access/membership.ts'
import type { Dependencies } from '../app.ts'
import type { Document } from '../slices/publisher.ts'
import { problem } from './problem.ts'
import { noSite } from './site-must-exist.ts'

/** What a browser asks to draw a site: its model, its latest state, its slices, the trail of a value. */
export function siteRoutes({ publisher }: Pick<Dependencies, 'publisher'>): Hono {
  const routes = new Hono()

  routes.get('/api/sites', async (context) => {
    const sites = await publisher.listSites()
    const memberships = context.get('memberships')
    return context.json({ sites: sites.filter(({ id }) => !memberships || knowsSite(memberships, id)) })
  })

  routes.get('/api/sites/:site', async (context) =>
    answer(context, await publisher.siteDocument(context.req.param('site'))),
  )

  routes.get('/api/sites/:site/state', async (context) =>
    answer(context, await publisher.stateDocument(context.req.param('site'))),
  )

  routes.get('/api/sites/:site/slices', async (context) => {
    const list = await publisher.sliceList(context.req.param('site'))
    if (!list) return noSite(context)
    context.header('cache-control', 'no-cache')
    return context.json(list)
  })

  routes.get('/api/sites/:site/publishing', async (context) => {
    const publishing = await publisher.publishing(context.req.param('site'))
    if (!publishing) return noSite(context)
    context.header('cache-control', 'no-store')
    return context.json(publishing)
  })

  routes.get('/api/sites/:site/trail', async (context) => {
    const series = context.req.query('series') ?? ''
    const atEpochMs = Date.parse(context.req.query('at') ?? '')
    if (series === '' || Number.isNaN(atEpochMs))
      return problem(
        context,
        400,
        'Query not understood',
        'Give series (point/measure) and at (RFC 3339 instant with offset), for example ?series=PZ-01A/pore-pressure&at=2027-06-01T06:00:00Z.',
      )
    const trail = await publisher.trail(context.req.param('site'), series, atEpochMs)
    if (!trail.ok)
      return problem(context, 404, 'No such value', trail.issues.map((issue) => issue.message).join(' '))
    return context.json(trail.value)
  })

  return routes
}

function answer(context: Context, document: Document | null): Response {
  if (!document) return noSite(context)
  context.header('etag', document.etag)
  context.header('cache-control', 'no-cache')
  if (context.req.header('if-none-match') === document.etag) return context.body(null, 304)
  return context.body(document.json, 200, { 'content-type': 'application/json; charset=utf-8' })
}
