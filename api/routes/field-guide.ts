import { Hono } from 'hono'
import type { Dependencies } from '../app.ts'
import { fieldGuide } from '../field/field-guide.ts'
import { noSite } from './site-must-exist.ts'

/** What a device keeps to read sensors by hand without a network. */
export function fieldGuideRoutes({ store, now }: Pick<Dependencies, 'store' | 'now'>): Hono {
  const routes = new Hono()
  routes.get('/api/sites/:site/field-guide', async (context) => {
    const model = await store.getSite(context.req.param('site'))
    if (!model) return noSite(context)
    context.header('cache-control', 'no-cache')
    return context.json(fieldGuide(model, model.facts.presentEpochMs ?? now()))
  })
  return routes
}
