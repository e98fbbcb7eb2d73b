/** Failed attempts to sign in, by whom and from where: kept in memory, forgotten by a restart. */
export interface AttemptLimits {
  /**
   * Milliseconds for which no attempt is judged; 0: it may be judged now, and counts as failed until `succeeded` is
   * told, so that attempts made at the same time count too.
   */
  begin(signInName: string, address: string): number
  succeeded(signInName: string, address: string): void
  /** This attempt was neither right nor wrong, so it does not count, and earlier failures stand. */
  undecided(signInName: string, address: string): void
}

/** So many failures of a name cost nothing: people mistype. An office has one address. */
const freeOfName = 5
const freeOfAddress = 30
const firstDelayMs = 2000
const longestDelayMs = 15 * 60_000
/** Nobody who failed is remembered longer than this after the last failure. */
const rememberMs = 60 * 60_000
const mostKeys = 10_000

interface Failures {
  readonly count: number
  readonly lastAtEpochMs: number
}

/** Beyond the free failures each one doubles the wait, from two seconds to a quarter of an hour. */
export function createAttemptLimits(now: () => number): AttemptLimits {
  const failures = new Map<string, Failures>()

  const known = (key: string): Failures => {
    const found = failures.get(key)
    return found && now() < found.lastAtEpochMs + rememberMs ? found : { count: 0, lastAtEpochMs: now() }
  }
  const waitMs = (key: string, free: number): number => {
    const { count, lastAtEpochMs } = known(key)
    if (count < free) return 0
    const delayMs = Math.min(longestDelayMs, firstDelayMs * 2 ** Math.min(count - free, 20))
    return Math.max(0, lastAtEpochMs + delayMs - now())
  }
  const keep = (key: string, count: number) => {
    // Taken out first: the map's order is that of the last failure.
    failures.delete(key)
    if (count > 0) failures.set(key, { count, lastAtEpochMs: now() })
    for (const oldest of failures.keys()) if (failures.size > mostKeys) failures.delete(oldest)
  }
  /** The instant of the failure before is not known any more; the later one is the strict side. */
  const takeBack = (key: string) => keep(key, Math.max(0, known(key).count - 1))
  const keysOf = (signInName: string, address: string) =>
    [`name ${signInName.slice(0, 100)}`, `from ${networkOf(address)}`] as const

  return {
    begin(signInName, address) {
      const [name, from] = keysOf(signInName, address)
      const wait = Math.max(waitMs(name, freeOfName), waitMs(from, freeOfAddress))
      if (wait > 0) return wait
      keep(name, known(name).count + 1)
      keep(from, known(from).count + 1)
      return 0
    },
    succeeded(signInName, address) {
      const [name, from] = keysOf(signInName, address)
      keep(name, 0)
      // Only this attempt: whoever has one account must not try others for nothing.
      takeBack(from)
    },
    undecided(signInName, address) {
      for (const key of keysOf(signInName, address)) takeBack(key)
    },
  }
}

/** One household has a whole IPv6 /64 to try from. */
export function networkOf(address: string): string {
  if (!address.includes(':') || address.startsWith('::ffff:')) return address.replace('::ffff:', '')
  const [head = ''] = address.split('::')
  const groups = head.split(':').slice(0, 4)
  return `${groups.join(':')}::/64`
}
