import type { MiddlewareHandler } from 'hono'
import { problem } from './problem.ts'

/**
 * Refuses requests addressed to another host name than ours, so that a foreign page cannot reach a
 * loopback server by pointing its own name at 127.0.0.1.
 */
export const hostGuard =
  (allowedHosts: readonly string[]): MiddlewareHandler =>
  async (context, next) => {
    const host = context.req.header('host') ?? new URL(context.req.url).host
    const name = host.replace(/:\d+$/, '').toLowerCase()
    if (!allowedHosts.includes(name))
      return problem(context, 421, 'Wrong host', `This server does not answer for the name "${name}".`)
    return next()
  }
