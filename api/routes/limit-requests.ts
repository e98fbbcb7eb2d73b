import type { MiddlewareHandler } from 'hono'
import { matchedRoutes } from 'hono/route'
import { createRequestLimits } from '../access/request-limits.ts'
import { routeRules } from '../access/route-rules.ts'
import { connectionOf } from './connection-of.ts'
import { problem } from './problem.ts'

/** Answers no network more often than people and their programs ask, before anything else is done for a request. */
export function limitRequests({
  now,
  behindTls = false,
}: {
  readonly now: () => number
  readonly behindTls?: boolean
}): MiddlewareHandler {
  const limits = createRequestLimits(now)
  return async (context, next) => {
    const { address } = connectionOf(context, behindTls)
    const { method } = context.req
    const isByStranger =
      method !== 'GET' &&
      matchedRoutes(context).some(({ path }) => routeRules[`${method} ${path}`]?.for === 'anyone')
    const waitMs = Math.max(
      limits.take(address, 'any'),
      isByStranger ? limits.take(address, 'by-strangers') : 0,
    )
    if (waitMs === 0) return next()
    const seconds = Math.ceil(waitMs / 1000)
    context.header('retry-after', String(seconds))
    return problem(
      context,
      429,
      'Too many requests',
      `More was asked from your network than is answered in a minute. Nothing was done; ask again in ${seconds} seconds.`,
    )
  }
}
