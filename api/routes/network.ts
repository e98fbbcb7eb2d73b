import { createHash } from 'node:crypto'
import { Hono } from 'hono'
import type { Dependencies } from '../app.ts'
import { networkDocument } from '../network/network-document.ts'
import { problem } from './problem.ts'
import { noSite } from './site-must-exist.ts'

/** Documents kept for asking again; a page that steps the clock to and fro asks for the same ones. */
const most = 32

/** How the loggers do, as known at an instant: asked for by one page only, and kept until readings or records change. */
export function networkRoutes({ store, now }: Pick<Dependencies, 'store' | 'now'>): Hono {
  const routes = new Hono()
  const kept = new Map<string, Promise<string>>()

  routes.get('/api/sites/:site/network', async (context) => {
    const site = context.req.param('site')
    const model = await store.getSite(site)
    if (!model) return noSite(context)
    const asked = context.req.query('at')
    const present = model.facts.presentEpochMs ?? Math.floor(now() / 60_000) * 60_000
    const asOfEpochMs = asked === undefined ? present : Date.parse(asked)
    if (Number.isNaN(asOfEpochMs))
      return problem(
        context,
        400,
        'Query not understood',
        'Give at as an RFC 3339 instant with offset, for example ?at=2027-06-01T06:00:00Z, or leave it out for the present.',
      )
    const key = `${site} ${await store.revision(site)} ${asOfEpochMs}`
    const document = kept.get(key) ?? networkDocument(store, site, model, asOfEpochMs).then(JSON.stringify)
    document.catch(() => kept.delete(key))
    kept.delete(key)
    kept.set(key, document)
    for (const old of kept.keys()) if (kept.size > most) kept.delete(old)
    const json = await document
    const etag = `"${createHash('sha256').update(json).digest('base64url').slice(0, 22)}"`
    context.header('etag', etag)
    context.header('cache-control', 'no-cache')
    if (context.req.header('if-none-match') === etag) return context.body(null, 304)
    return context.body(json, 200, { 'content-type': 'application/json; charset=utf-8' })
  })

  return routes
}
