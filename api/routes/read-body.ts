import type { Context } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import type { z } from 'zod'
import { accept, type Outcome, reject } from '#domain/outcome.ts'
import { problem } from './problem.ts'

/** Names, passwords and roles are short. */
export const shortBody = bodyLimit({
  maxSize: 16 * 1024,
  onError: (context) =>
    problem(context, 413, 'Too much at once', 'At most 16 KiB are taken here. Nothing was changed.'),
})

/** A JSON body of a shape. Its values are not told in what is wrong: one of them may be a password. */
export async function readBody<T>(context: Context, schema: z.ZodType<T>): Promise<Outcome<T>> {
  const parsed = schema.safeParse(await context.req.json().catch(() => null))
  if (parsed.success) return accept(parsed.data)
  return reject(
    ...parsed.error.issues.map(({ path, message }) => ({
      code: 'body-unreadable',
      column: path.join('.'),
      message: `${path.join('.') || 'The request'}: ${message}.`,
    })),
  )
}
