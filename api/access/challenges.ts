const lastsMs = 5 * 60_000
const most = 10_000

/** Random words that a device signs, each for one purpose and once; kept in memory, forgotten by a restart. */
export interface Challenges {
  remember(challenge: string, purpose: string): void
  /** True the first time within five minutes, for the purpose it was given out for. */
  take(challenge: string, purpose: string): boolean
}

export function createChallenges(now: () => number): Challenges {
  const given = new Map<string, { readonly purpose: string; readonly untilEpochMs: number }>()
  return {
    remember(challenge, purpose) {
      given.set(challenge, { purpose, untilEpochMs: now() + lastsMs })
      // Anybody may ask for one: the oldest go first.
      for (const oldest of given.keys()) if (given.size > most) given.delete(oldest)
    },
    take(challenge, purpose) {
      const found = given.get(challenge)
      given.delete(challenge)
      return found !== undefined && found.purpose === purpose && now() < found.untilEpochMs
    },
  }
}
