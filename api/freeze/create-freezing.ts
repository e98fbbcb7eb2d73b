import { readFile } from 'node:fs/promises'
import type { FreezeProgress } from '#contract/frozen-sets.ts'
import type { Actor } from '#domain/audit/audit-entry.ts'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import { accept, type Outcome, reject } from '#domain/outcome.ts'
import { reservedAuthor } from '#domain/site/reserved-author.ts'
import type { Alerts } from '../alerts/alerts.ts'
import type { KeptFrozenSet } from '../store/frozen-set-verbs.ts'
import type { Store } from '../store/store.ts'
import { clearUnfinished } from './clear-leftovers.ts'
import { cutOffFaults } from './cut-off-faults.ts'
import { type Freezing, FreezingBusy, mostWaiting } from './freezing.ts'
import { createPartOpener, FrozenPartDamaged } from './frozen-parts.ts'
import { makeSet } from './make-set.ts'
import { isTheSame, recordsAt } from './records-at.ts'
import { setFolder } from './set-folder.ts'
import { findSince } from './since.ts'
import { manifestId, manifestOf } from './write-set.ts'

export interface FreezingDependencies {
  readonly store: Store
  readonly alerts: Pick<Alerts, 'evaluated'>
  /** Folder under which each site has its frozen sets, a folder each. */
  readonly folder: string
  /** Folder of published slices, from which months are taken that the set has as they are. */
  readonly slicesFolder: string
  readonly software: string
  readonly now: () => number
}

type Frozen = Outcome<{ readonly set: FrozenSet; readonly made: boolean }>

/** Frozen data sets in a folder beside the store. */
export function createFreezing(dependencies: FreezingDependencies): Freezing {
  const { store, folder, software, now } = dependencies
  const sharing = new Map<string, Promise<Frozen>>()
  const lanes = new Map<string, Promise<unknown>>()
  /** Freezings of a site that are under way or wait. */
  const taken = new Map<string, number>()
  const progress = new Map<string, FreezeProgress>()
  const parts = createPartOpener((set) => setFolder(folder, set))
  // Asked for with every block of a slice, and added to here alone.
  const kept = new Map<string, Promise<readonly KeptFrozenSet[]>>()

  function setsOf(site: string): Promise<readonly KeptFrozenSet[]> {
    const known = kept.get(site)
    if (known) return known
    const reading = store.listFrozenSets(site)
    kept.set(site, reading)
    reading.catch(() => kept.delete(site))
    return reading
  }

  async function find(site: string, id: string): Promise<FrozenSet | null> {
    const set = (await setsOf(site)).find((one) => one.set.id === id)?.set ?? null
    if (set && manifestId(manifestOf(set)) !== id)
      throw new FrozenPartDamaged(id, 'manifest', 'is not what its id says.')
    return set
  }

  async function isWhole(set: FrozenSet): Promise<boolean> {
    try {
      for (const part of set.parts) await parts.open(set, part)
      return true
    } catch (failure) {
      if (failure instanceof FrozenPartDamaged) return false
      throw failure
    }
  }

  /** One at a time at a site; the first clears away what a kill left. */
  function next<T>(site: string, task: () => Promise<T>): Promise<T> {
    const count = taken.get(site) ?? 0
    if (count > mostWaiting) throw new FreezingBusy(`${count} freezings of ${site} are under way or wait.`)
    taken.set(site, count + 1)
    const before = lanes.get(site) ?? clearUnfinished(folder, site)
    const turn = before
      .catch(() => undefined)
      .then(task)
      .finally(() => taken.set(site, (taken.get(site) ?? 0) - 1))
    lanes.set(site, turn)
    return turn
  }

  async function freezeNow(site: string, cutOffEpochMs: number, by: Actor): Promise<Frozen> {
    const earlier = await setsOf(site)
    const { mark, model } = await recordsAt(store, site, earlier)
    const known = earlier.find((one) => isTheSame(one, { mark, cutOffEpochMs, software }))
    if (known && (await isWhole(known.set))) return accept({ set: known.set, made: false })
    const startedAtEpochMs = now()
    const told = { cutOffEpochMs, startedAtEpochMs, month: null, at: 0, of: 0 }
    progress.set(site, told)
    try {
      const made = await makeSet({
        ...dependencies,
        model,
        mark,
        cutOffEpochMs,
        by,
        earlier,
        isWhole,
        onMonth: (month, at, of) => progress.set(site, { ...told, month, at, of }),
      })
      return accept(made)
    } finally {
      kept.delete(site)
      progress.delete(site)
    }
  }

  return {
    async freeze(site, asked, by) {
      const author = { ...by, name: by.name.trim() }
      const faults = reservedAuthor(author.name)
      if (faults.length > 0) return reject(...faults)
      const facts = (await store.getSite(site))?.facts
      if (!facts) throw new Error(`There is no site "${site}" to freeze.`)
      const presentEpochMs = facts.presentEpochMs ?? now()
      const cutOffEpochMs = asked ?? presentEpochMs
      const issues = cutOffFaults(cutOffEpochMs, presentEpochMs, await store.firstReceiptEpochMs(site))
      if (issues.length > 0) return reject(...issues)
      const key = `${site} ${cutOffEpochMs}`
      const shared = sharing.get(key)
      if (shared)
        return shared.then((frozen) => (frozen.ok ? accept({ ...frozen.value, made: false }) : frozen))
      const turn = next(site, () => freezeNow(site, cutOffEpochMs, author)).finally(() => sharing.delete(key))
      sharing.set(key, turn)
      return turn
    },

    list: async (site) => (await setsOf(site)).map(({ set }) => set),

    find,

    async damageOf(site, id) {
      try {
        const set = await find(site, id)
        if (!set) return `The frozen data set ${id} is not held here.`
        for (const part of set.parts) await parts.look(set, part)
        return null
      } catch (failure) {
        if (failure instanceof FrozenPartDamaged) return failure.message
        throw failure
      }
    },

    running: (site) => progress.get(site) ?? null,

    async document(set, name) {
      const part = set.parts.find((one) => one.name === name)
      if (!part) throw new Error(`The frozen data set ${set.id} has no part ${name}.`)
      return readFile(await parts.open(set, part))
    },

    async sliceFile(site, name) {
      let damage: unknown = null
      for (const { set } of await setsOf(site)) {
        const part = set.parts.find((one) => one.name === name)
        if (!part) continue
        try {
          return await parts.open(set, part)
        } catch (failure) {
          // Another set may have the very same content: the name carries its hash.
          damage ??= failure
        }
      }
      if (damage) throw damage
      return null
    },

    async since(set, mayReadAll) {
      const one = (await setsOf(set.site)).find((other) => other.set.id === set.id)
      if (!one) throw new Error(`There is no frozen data set ${set.id} at ${set.site}.`)
      return findSince(store, one, mayReadAll, now())
    },

    async close() {
      await Promise.allSettled(lanes.values())
    },
  }
}
