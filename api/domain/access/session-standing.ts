import type { Session } from './account.ts'

const dayMs = 86_400_000

/** A device signs in again after so long, whatever it did. */
export const longestSessionMs = 30 * dayMs
/** A device that was not heard of for so long signs in again: a week's rotation off the works is survived, a lost tablet not for long. */
export const longestSilenceMs = 14 * dayMs

/** Whether a session still speaks for its account at an instant (epoch ms). */
export const sessionHolds = (session: Session, atEpochMs: number): boolean =>
  session.endedAtEpochMs === null &&
  atEpochMs < session.expiresAtEpochMs &&
  atEpochMs < session.lastSeenAtEpochMs + longestSilenceMs
