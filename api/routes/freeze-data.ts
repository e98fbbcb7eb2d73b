import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import { type Outcome, reject } from '#domain/outcome.ts'

/** What meetings need of frozen data sets. */
export interface FreezeData {
  /** The record of a set that this server holds whole; null: it holds none of that name. */
  find(site: string, set: string): Promise<FrozenSet | null>
  /** Freezes what had been received up to an instant. */
  freeze(site: string, cutOffEpochMs: number, author: string): Promise<Outcome<FrozenSet>>
}

/** Where nothing is frozen: no set is found and none is made. */
export const freezesNothing: FreezeData = {
  find: async () => null,
  freeze: async () =>
    reject({
      code: 'freezing-unavailable',
      message: 'This server freezes no data, so a meeting cannot be made here.',
    }),
}
