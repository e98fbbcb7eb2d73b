import type { MiddlewareHandler } from 'hono'
import type { Dependencies } from '../app.ts'
import { refuseAllButOwnPage } from './refuse-stranger.ts'
import { noSite } from './sites.ts'

/**
 * The one place that says who may write down field work and add attachments: whoever may change records, so today the
 * page on this machine. The site must exist, whatever is asked.
 */
export const guardFieldWork =
  (dependencies: Dependencies): MiddlewareHandler =>
  async (context, next) => {
    const asks = context.req.method === 'GET' || context.req.method === 'HEAD'
    const refusal = asks ? null : refuseAllButOwnPage(context, dependencies)
    if (refusal) return refusal
    if (!(await dependencies.store.getSite(context.req.param('site') ?? ''))) return noSite(context)
    return next()
  }
