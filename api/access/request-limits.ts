import { networkOf } from './attempt-limits.ts'

/** What is counted: every request, and besides those by which a stranger makes the server work or guess. */
export type RequestKind = 'any' | 'by-strangers'

const windowMs = 60_000
/**
 * In one minute from one network: a tablet that keeps a whole site asks a few hundred times, an office of thirty pages
 * a few thousand. People sign in a few times.
 */
export const mostInWindow: Readonly<Record<RequestKind, number>> = { any: 12_000, 'by-strangers': 200 }
const mostKeys = 10_000

/** Requests by where they come from, in fixed windows; kept in memory, forgotten by a restart. */
export interface RequestLimits {
  /** Counts a request; milliseconds until one is answered again, 0: this one is. */
  take(address: string, kind: RequestKind): number
}

export function createRequestLimits(now: () => number): RequestLimits {
  const windows = new Map<string, { readonly untilEpochMs: number; count: number }>()
  return {
    take(address, kind) {
      const key = `${kind} ${networkOf(address)}`
      const found = windows.get(key)
      if (found && now() < found.untilEpochMs) {
        found.count++
        return found.count > mostInWindow[kind] ? found.untilEpochMs - now() : 0
      }
      windows.delete(key)
      windows.set(key, { untilEpochMs: now() + windowMs, count: 1 })
      for (const oldest of windows.keys()) if (windows.size > mostKeys) windows.delete(oldest)
      return 0
    },
  }
}
