import type { Context, MiddlewareHandler } from 'hono'
import type { Store } from '../store/store.ts'
import { problem } from './problem.ts'

/** Whatever is asked of a site, it must exist. */
export const siteMustExist =
  ({ store }: { readonly store: Pick<Store, 'getSite'> }): MiddlewareHandler =>
  async (context, next) => {
    if (!(await store.getSite(context.req.param('site') ?? ''))) return noSite(context)
    return next()
  }

export const noSite = (context: Context): Response => noSiteNamed(context, context.req.param('site') ?? '')

/** The same answer for a site that one may not know of. */
export const noSiteNamed = (context: Context, site: string): Response =>
  problem(context, 404, 'No such site', `There is no site "${site}" here; /api/sites lists those there are.`)
