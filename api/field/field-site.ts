import type { FieldEffect, StoredFieldEntry } from '#contract/field-entry.ts'
import type { FieldBody } from '#domain/field/field-bodies.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import { type Standing, standingEntries } from '#domain/field/standing-entries.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Intake } from '../intake/create-intake.ts'
import type { Store } from '../store/store.ts'

/** What works on field entries may touch. */
export interface FieldTools {
  readonly store: Store
  readonly intake: Intake
  readonly now: () => number
  /** Says that readings or records of the site are others than before. */
  readonly touch: () => void
  /** Told of what could not be worked on; it is tried again at the next run. */
  readonly failed: (cause: unknown) => void
}

/** A site and all that was written along its works, as far as it has arrived. */
export interface FieldSite {
  readonly model: SiteModel
  /** All but those that came under the id of another. */
  readonly entries: readonly StoredFieldEntry[]
  readonly standings: ReadonlyMap<string, Standing<FieldEntry>>
  readonly byId: ReadonlyMap<string, StoredFieldEntry>
}

export interface NumberedEffect {
  readonly number: number
  readonly effect: FieldEffect
}

export type EntryOf<K extends FieldBody['kind']> = StoredFieldEntry & {
  readonly entry: { readonly body: Extract<FieldBody, { readonly kind: K }> }
}

export function readFieldSite(model: SiteModel, stored: readonly StoredFieldEntry[]): FieldSite {
  const entries = stored.filter(({ differs }) => !differs)
  const standings = standingEntries(entries.map(({ entry }) => entry))
  return {
    model,
    entries,
    standings: new Map(standings.map((one) => [one.subject, one])),
    byId: new Map(entries.map((one) => [one.entry.id, one])),
  }
}

export function ofKind<K extends FieldBody['kind']>(
  entries: readonly StoredFieldEntry[],
  ...kinds: readonly K[]
): readonly EntryOf<K>[] {
  return entries.filter((one) => (kinds as readonly string[]).includes(one.entry.body.kind)) as EntryOf<K>[]
}

/** The instant that was the present when an entry arrived: of invented data, the site's own. */
export const presentAt = (
  { facts }: Pick<SiteModel, 'facts'>,
  { receivedAtEpochMs }: Pick<StoredFieldEntry, 'receivedAtEpochMs'>,
): number => facts.presentEpochMs ?? receivedAtEpochMs

/** An effect with its sentences in one. */
export const effectOf = (
  outcome: FieldEffect['outcome'],
  sentences: readonly (string | null)[],
  batch: number | null = null,
): FieldEffect => ({
  outcome,
  sentence: sentences.filter((one) => one !== null && one !== '').join(' '),
  batch,
})

/** Works on things one after the other, so that one that fails holds up no other. */
export async function eachByItself<T>(
  { failed }: Pick<FieldTools, 'failed'>,
  things: Iterable<T>,
  work: (thing: T) => Promise<readonly NumberedEffect[]>,
): Promise<readonly NumberedEffect[]> {
  const effects: NumberedEffect[] = []
  for (const thing of things) {
    try {
      effects.push(...(await work(thing)))
    } catch (cause) {
      failed(cause)
    }
  }
  return effects
}
