import type { Context } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import type { z } from 'zod'
import { accept, type Outcome, reject } from '#domain/outcome.ts'
import { brokenCharacter, hasWholeCharacters } from '#domain/whole-characters.ts'
import { problem } from './problem.ts'

/** Names, passwords and roles are short. */
export const shortBody = bodyLimit({
  maxSize: 16 * 1024,
  onError: (context) =>
    problem(context, 413, 'Too much at once', 'At most 16 KiB are taken here. Nothing was changed.'),
})

/** How it is told that a body is not of its shape. */
interface Unread {
  readonly code: string
  /** What the body is, where nothing in it is to blame. */
  readonly what: string
}

/**
 * A JSON body of a shape, with every character whole: the only way by which routes read one. Its values are not told in
 * what is wrong: one of them may be a password.
 */
export async function readBody<T>(
  context: Context,
  schema: z.ZodType<T>,
  unread: Unread = { code: 'body-unreadable', what: 'The request' },
): Promise<Outcome<T>> {
  const read = await readShape(context, schema, unread)
  return read.ok && !hasWholeCharacters(read.value) ? reject(brokenCharacter) : read
}

/** As `readBody`, for a body whose parts are judged one by one, their characters too. */
export async function readShape<T>(
  context: Context,
  schema: z.ZodType<T>,
  { code, what }: Unread,
): Promise<Outcome<T>> {
  const parsed = schema.safeParse(await context.req.json().catch(() => null))
  if (parsed.success) return accept(parsed.data)
  return reject(
    ...parsed.error.issues.map(({ path, message }) => ({
      code,
      column: path.join('.'),
      message: `${path.join('.') || what}: ${message}.`,
    })),
  )
}
