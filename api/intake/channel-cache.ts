import type { Store } from '../store/store.ts'

/**
 * The store's channel numbers, each asked for once: they are never changed or used again, so what has been
 * answered holds for as long as the process lives. A file of a hundred channels then costs no question at all.
 */
export function cacheChannelNumbers(store: Store): Pick<Store, 'channelNumbers'> {
  const sites = new Map<string, Map<string, number>>()
  return {
    async channelNumbers(site, keys) {
      const known = sites.get(site) ?? new Map<string, number>()
      sites.set(site, known)
      const nameOf = ({ logger, name }: { logger: string; name: string }) => `${logger}\n${name}`
      const fresh = keys.filter((key) => !known.has(nameOf(key)))
      if (fresh.length > 0) {
        const numbers = await store.channelNumbers(site, fresh)
        for (const [i, key] of fresh.entries()) known.set(nameOf(key), numbers[i] as number)
      }
      return keys.map((key) => known.get(nameOf(key)) as number)
    },
  }
}
