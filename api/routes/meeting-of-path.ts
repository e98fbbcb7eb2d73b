import type { Context } from 'hono'
import { problem } from './problem.ts'

/** A number in the path of a request; null: it is none. */
export function numberInPath(context: Context, name: 'meeting' | 'minute'): number | null {
  const text = context.req.param(name) ?? ''
  return /^[1-9]\d{0,8}$/.test(text) ? Number(text) : null
}

export const noMeeting = (context: Context): Response =>
  problem(
    context,
    404,
    'No such meeting',
    `There is no meeting "${context.req.param('meeting')}" at this site; it lists those there are.`,
  )
