import type { Context } from 'hono'
import { callerOf } from './attempt-answers.ts'
import { problem } from './problem.ts'

/** Null: the test may go. */
export type TestLimit = (context: Context) => Response | null

const mostTests = 20
const withinMs = 10 * 60_000

/**
 * Tests go to whoever an address belongs to, so nobody sends many: twenty in ten minutes an account, over all ways.
 * Kept in memory.
 */
export function createTestLimit(now: () => number): TestLimit {
  const sentByAccount = new Map<string, readonly number[]>()
  return (context) => {
    const { id } = callerOf(context).account
    const recent = (sentByAccount.get(id) ?? []).filter((at) => now() < at + withinMs)
    const [oldest] = recent
    if (oldest !== undefined && recent.length >= mostTests) {
      const seconds = Math.max(1, Math.ceil((oldest + withinMs - now()) / 1000))
      context.header('retry-after', String(seconds))
      return problem(
        context,
        429,
        'Too many tests',
        `At most ${mostTests} tests are sent in ten minutes. Nothing was sent; try again in ${seconds} seconds.`,
      )
    }
    sentByAccount.set(id, [...recent, now()])
    return null
  }
}
