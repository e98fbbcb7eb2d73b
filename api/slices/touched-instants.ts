import { instantsOfStamps, type Stretch } from '#domain/reduction/clock-reach.ts'
import type { ChannelClock, Store } from '../store/store.ts'

/**
 * Instants among which the readings accepted since a revision stand, end exclusive: those of their stamps, and where a
 * clock put right brings them. Null: there are none.
 */
export async function touchedInstants(
  store: Pick<Store, 'touchedSince'>,
  site: string,
  revision: number,
  clocks: readonly ChannelClock[],
): Promise<Stretch | null> {
  const stamps = await store.touchedSince(site, revision)
  return (
    stamps &&
    instantsOfStamps(
      clocks.map(({ settings }) => settings),
      stamps,
    )
  )
}
