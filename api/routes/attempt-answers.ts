import type { Context } from 'hono'
import type { Caller } from '../access/create-access.ts'
import type { PasswordJudgement } from '../access/own-password.ts'
import { TooManyAtOnce } from '../access/password-hash.ts'
import type { Connection } from './connection-of.ts'
import { problem } from './problem.ts'

/** A password is not sent where others can read along: why, and what to do. Null: it may be sent. */
export const hindranceOf = ({ isEncrypted, isLocal }: Connection): string | null =>
  isEncrypted || isLocal
    ? null
    : 'This connection is not encrypted, so a password would be readable on its way and nobody can sign in over it. Put a proxy that speaks TLS in front of the server, set STILLGROUND_BEHIND_TLS=yes, and open the page by https.'

export const notEncrypted = (context: Context, hindrance: string): Response =>
  problem(context, 403, 'Connection not encrypted', hindrance)

/** Where too many passwords are judged at this moment, the same request may be made again soon. */
export function busy(failure: unknown): { readonly waitMs: number } {
  if (failure instanceof TooManyAtOnce) return { waitMs: 2000 }
  throw failure
}

export function tooOften(context: Context, waitMs: number): Response {
  const seconds = Math.ceil(waitMs / 1000)
  context.header('retry-after', String(seconds))
  return problem(
    context,
    429,
    'Too many attempts',
    `There were too many attempts to sign in. Nothing was judged this time; try again in ${seconds} seconds.`,
  )
}

/** Null: the own password was right. */
export function refuseOwnPassword(context: Context, judged: PasswordJudgement): Response | null {
  if (judged === 'right') return null
  if (judged === 'wrong')
    return problem(
      context,
      403,
      'Password wrong',
      'That is not your password, so nothing was changed. After a few wrong ones the server waits before it judges the next.',
    )
  return tooOften(context, judged.waitMs)
}

/** Who is signed in, on a route for persons. */
export function callerOf(context: Context): Caller {
  const caller = context.get('caller')
  if (!caller) throw new Error('Asked for without an account; the guard lets nobody in so.')
  return caller
}
