import { createHash, timingSafeEqual } from 'node:crypto'
import type { Context } from 'hono'
import type { Dependencies } from '../app.ts'
import { problem } from './problem.ts'

type Known = Pick<Dependencies, 'ingestTokenSha256' | 'loopbackOnly'>

/**
 * Who may add files: a program with the ingest token; or, while the server listens on loopback only, a
 * page that this server itself served (browsers say so and cannot be made to lie about it).
 */
export function refuseStranger(
  context: Context,
  { ingestTokenSha256, loopbackOnly }: Known,
): Response | null {
  const bearer = /^Bearer ([\w-]{20,200})$/.exec(context.req.header('authorization') ?? '')?.[1]
  if (bearer && ingestTokenSha256) {
    const given = createHash('sha256').update(bearer).digest()
    if (timingSafeEqual(given, Buffer.from(ingestTokenSha256, 'hex'))) return null
  }
  if (isOwnPage(context, loopbackOnly)) return null
  context.header('www-authenticate', 'Bearer')
  return problem(
    context,
    401,
    'Token needed',
    'Adding files needs the ingest token: send it as "Authorization: Bearer …". The server says at its start where the token is kept.',
  )
}

/** Who may change records: the page on this machine alone. The ingest token adds readings and nothing else. */
export function refuseAllButOwnPage(
  context: Context,
  { loopbackOnly }: Pick<Known, 'loopbackOnly'>,
): Response | null {
  if (isOwnPage(context, loopbackOnly)) return null
  return problem(
    context,
    403,
    'Records are changed on this machine only',
    'Records can be changed by the page that this server serves, opened on the same machine while the server listens on loopback only. The ingest token adds readings and nothing else.',
  )
}

const isOwnPage = (context: Context, loopbackOnly: boolean): boolean =>
  loopbackOnly && context.req.header('sec-fetch-site') === 'same-origin'
