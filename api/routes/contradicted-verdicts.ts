import { Hono } from 'hono'
import type { VerdictWatch } from '../review/verdict-watch.ts'
import { noSite } from './site-must-exist.ts'

/** Which verdicts newer data contradict, as the server found when they were last published. */
export function contradictedVerdictRoutes({
  watch,
}: {
  readonly watch: Pick<VerdictWatch, 'document'>
}): Hono {
  const routes = new Hono()
  routes.get('/api/sites/:site/contradicted-verdicts', async (context) => {
    const document = await watch.document(context.req.param('site'))
    if (!document) return noSite(context)
    context.header('cache-control', 'no-store')
    return context.json(document)
  })
  return routes
}
