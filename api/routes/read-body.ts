import type { Context } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import type { z } from 'zod'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import { problem } from './problem.ts'

/** Names, passwords and roles are short. */
export const shortBody = bodyLimit({
  maxSize: 16 * 1024,
  onError: (context) =>
    problem(context, 413, 'Too much at once', 'At most 16 KiB are taken here. Nothing was changed.'),
})

/**
 * Whether no text in a value read from JSON has half of a pair of code units: such a one has no UTF-8, and would be kept as
 * something else than was sent.
 */
export const hasWholeCharacters = (value: unknown): boolean =>
  typeof value === 'string'
    ? !/\p{Surrogate}/u.test(value)
    : typeof value !== 'object' ||
      value === null ||
      Object.entries(value).every(([name, one]) => hasWholeCharacters(name) && hasWholeCharacters(one))

/** A JSON body of a shape. Its values are not told in what is wrong: one of them may be a password. */
export async function readBody<T>(context: Context, schema: z.ZodType<T>): Promise<Outcome<T>> {
  const parsed = schema.safeParse(await context.req.json().catch(() => null))
  if (parsed.success && !hasWholeCharacters(parsed.data)) return reject(brokenCharacter)
  if (parsed.success) return accept(parsed.data)
  return reject(
    ...parsed.error.issues.map(({ path, message }) => ({
      code: 'body-unreadable',
      column: path.join('.'),
      message: `${path.join('.') || 'The request'}: ${message}.`,
    })),
  )
}

export const brokenCharacter: Issue = {
  code: 'character-broken',
  message:
    'A text in it has half of a character, which cannot be kept. Delete the last character and type it again.',
}
