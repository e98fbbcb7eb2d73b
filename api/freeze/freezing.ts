import type { FreezeProgress, FrozenSince } from '#contract/frozen-sets.ts'
import type { Actor } from '#domain/audit/audit-entry.ts'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { FrozenDocument } from './frozen-parts.ts'

/** How many freezings of a site may wait for the one under way. */
export const mostWaiting = 4

/** So many freezings of a site wait already that no more are taken on. */
export class FreezingBusy extends Error {
  override name = 'FreezingBusy'
  /** After how long to ask again. */
  readonly retryAfterSeconds = 60
}

/** Frozen data sets of all sites. */
export interface Freezing {
  /**
   * Freezes what a site had received by an instant; null: by its present. `made` is false where the very same content
   * was frozen before. Asked for twice at once, it is done once. Throws `FreezingBusy`.
   */
  freeze(
    site: string,
    cutOffEpochMs: number | null,
    by: Actor,
  ): Promise<Outcome<{ readonly set: FrozenSet; readonly made: boolean }>>
  list(site: string): Promise<readonly FrozenSet[]>
  find(site: string, id: string): Promise<FrozenSet | null>
  /**
   * Why a set cannot be read whole, as a sentence: it is not here, or a part is missing, of another size or was found damaged
   * before. Null: nothing is known against it; its parts are not read for that.
   */
  damageOf(site: string, id: string): Promise<string | null>
  /** How far the one under way at a site is; null: none is. */
  running(site: string): FreezeProgress | null
  /** Bytes of a document as they were frozen; throws `FrozenPartDamaged`. */
  document(set: FrozenSet, name: FrozenDocument): Promise<Uint8Array>
  /** Path of a slice file by its public name; null: no set of the site has it. Throws `FrozenPartDamaged`. */
  sliceFile(site: string, name: string): Promise<string | null>
  /** What would be otherwise today. `mayReadAll`: with who changed a record, and why. */
  since(set: FrozenSet, mayReadAll: boolean): Promise<FrozenSince>
  close(): Promise<void>
}
