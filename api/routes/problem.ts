import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import type { Problem } from '#contract/problems.ts'
import type { Issue } from '#domain/outcome.ts'
import { FreezingBusy } from '../freeze/freezing.ts'
import { FrozenPartDamaged } from '../freeze/frozen-parts.ts'

/** Answers with RFC 9457 problem details. `title` names the kind of problem, `detail` this one and what to do. */
export function problem(
  context: Context,
  status: ContentfulStatusCode,
  title: string,
  detail: string,
  issues?: readonly Issue[],
): Response {
  const body: Problem = {
    type: `/problems/${title.toLowerCase().replaceAll(/[^a-z]+/g, '-')}`,
    title,
    status,
    detail,
    instance: new URL(context.req.url).pathname,
    ...(issues ? { issues: issues.map((issue) => ({ ...issue })) } : {}),
  }
  return context.body(JSON.stringify(body), status, { 'content-type': 'application/problem+json' })
}

export const onNotFound = (context: Context): Response =>
  problem(context, 404, 'Not found', `There is nothing at ${new URL(context.req.url).pathname}.`)

/** The one place where a failure of the world becomes an answer; its cause goes to the report, not to the client. */
export const onFailure =
  (report: (line: string) => void) =>
  (failure: Error, context: Context): Response => {
    if (failure instanceof HTTPException)
      return problem(context, failure.status as ContentfulStatusCode, 'Request refused', failure.message)
    if (failure instanceof FreezingBusy) {
      context.header('retry-after', String(failure.retryAfterSeconds))
      return problem(
        context,
        503,
        'Too many freezings wait',
        `${failure.message} Nothing was frozen by this request. Ask again in a minute, or use a set that is listed by then.`,
      )
    }
    if (failure instanceof FrozenPartDamaged) {
      report(failure.message)
      return problem(
        context,
        500,
        'Frozen part damaged',
        `${failure.message} Nothing newer is shown in its place. Put the folder of the set back from a backup, or freeze anew by the same cut-off.`,
        [{ code: 'frozen-part-damaged', value: failure.part, message: failure.message }],
      )
    }
    report(
      `${context.req.method} ${new URL(context.req.url).pathname} failed: ${failure.stack ?? failure.message}`,
    )
    if (isDiskFull(failure))
      return problem(
        context,
        507,
        'Disk full',
        'There is no room on the disk of the server. Nothing was kept of this request. Make room, then send it again.',
      )
    return problem(
      context,
      500,
      'Server failure',
      'The server could not answer. Nothing was changed by this request; its report says why. Try again, and if it persists tell the person who runs this server.',
    )
  }

/** The disk itself says so by a code, the database in words. */
function isDiskFull(failure: unknown): boolean {
  if (!(failure instanceof Error)) return false
  const { code } = failure as NodeJS.ErrnoException
  return (
    code === 'ENOSPC' ||
    code === 'EDQUOT' ||
    /no space left on device|disk quota exceeded/i.test(failure.message) ||
    isDiskFull(failure.cause)
  )
}
