import { randomUUID } from 'node:crypto'
import { mkdir, rename, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Actor } from '#domain/audit/audit-entry.ts'
import type { FrozenPart, FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Alerts } from '../alerts/alerts.ts'
import { publishMonths } from '../slices/publish-months.ts'
import { readRecipe } from '../slices/recipe.ts'
import { emptyIndex, readIndex } from '../slices/slice-index.ts'
import type { KeptFrozenSet, SiteProgressMark } from '../store/frozen-set-verbs.ts'
import { canonicalJson } from '../store/model-records.ts'
import type { Store } from '../store/store.ts'
import { boundedStore } from './bounded-store.ts'
import { notListedYet, unfinished } from './clear-leftovers.ts'
import { countReadings } from './count-readings.ts'
import { documentsOf } from './documents-of.ts'
import { monthWindows, takeMonths } from './month-files.ts'
import { earlierSources, publishedSource } from './month-sources.ts'
import { readingDays } from './reading-days.ts'
import { setFolder } from './set-folder.ts'
import { flush, type Manifest, manifestId, writeDocument } from './write-set.ts'

export interface SetRequest {
  readonly store: Store
  readonly alerts: Pick<Alerts, 'evaluated'>
  readonly folder: string
  readonly slicesFolder: string
  readonly software: string
  readonly now: () => number
  readonly model: SiteModel
  readonly mark: SiteProgressMark
  readonly cutOffEpochMs: number
  readonly by: Actor
  /** Sets of the site from before, newest first: months that they have as they are are taken from them. */
  readonly earlier: readonly KeptFrozenSet[]
  readonly isWhole: (set: FrozenSet) => Promise<boolean>
  readonly onMonth: (month: string, at: number, of: number) => void
}

/**
 * Makes a set aside, gives it its place when it is whole and on the disk, and only then says in the store that it is
 * there: a kill or a full disk leaves no half of one.
 */
export async function makeSet(
  request: SetRequest,
): Promise<{ readonly set: FrozenSet; readonly made: boolean }> {
  const { store, folder, model, mark, by, now } = request
  const site = model.facts.id
  const aside = join(folder, site, `${unfinished}${randomUUID()}`)
  await mkdir(join(aside, 'slices'), { recursive: true })
  try {
    const manifest = await fillFolder(request, aside)
    const id = manifestId(manifest)
    const known = request.earlier.find(({ set }) => set.id === id)?.set
    if (known && (await request.isWhole(known))) return { set: known, made: false }
    await writeFile(join(aside, 'manifest.json'), canonicalJson(manifest))
    await flush(join(aside, 'manifest.json'))
    if (!known) await writeFile(join(aside, notListedYet), '')
    await flush(aside)
    const place = setFolder(folder, { site, id })
    // One that is damaged, or whole but never said to be there: left by a kill between the two.
    await rm(place, { recursive: true, force: true })
    await rename(aside, place)
    await flush(join(folder, site))
    if (known) return { set: known, made: false }
    const set: FrozenSet = { ...manifest, id, frozenAtEpochMs: presentOf(request), frozenBy: by.name }
    const signature = {
      author: by.name,
      account: by.account,
      reason: '',
      atEpochMs: now(),
    }
    const made = await store.addFrozenSet(set, mark, signature)
    // Where it stays it does no harm: the next start takes it away.
    await rm(join(place, notListedYet), { force: true }).catch(() => undefined)
    return { set, made }
  } finally {
    await rm(aside, { recursive: true, force: true })
  }
}

/** Slices, documents and what a later set can take from them; returns the manifest. */
async function fillFolder(request: SetRequest, aside: string): Promise<Manifest> {
  const { store, slicesFolder, software, mark, cutOffEpochMs } = request
  const site = request.model.facts.id
  const slicesAside = join(aside, 'slices')
  // Before the readings are looked at: what is published after it is seen as beyond.
  const published = await readIndex(join(slicesFolder, site)).catch(() => emptyIndex)
  const unpublished = await store.touchedSince(site, published.revision)
  const receipt = { receivedUntilEpochMs: cutOffEpochMs, throughBatch: mark.batch }
  const days = await readingDays(store, site, receipt)
  const bounded = boundedStore(store, site, {
    ...receipt,
    recordsRevision: mark.recordsRevision,
    instants: days.instants,
  })
  const model: SiteModel = {
    ...request.model,
    facts: { ...request.model.facts, presentEpochMs: cutOffEpochMs },
  }
  const recipe = await readRecipe(store, site, model)
  const windows = monthWindows(recipe, days)
  const months = await takeMonths(slicesAside, recipe, windows, [
    ...(await earlierSources(request.folder, request.earlier, days)),
    publishedSource(join(slicesFolder, site), published, days, unpublished),
  ])
  const { index } = await publishMonths({
    store: bounded,
    site,
    folder: slicesAside,
    recipe,
    revision: mark.recordsRevision,
    previous: { ...emptyIndex, revision: mark.recordsRevision, months },
    onMonth: request.onMonth,
  })
  const hashes = Object.fromEntries(
    [...windows].map(([name, window]) => [name, days.hashOf(window.fromEpochMs, window.untilEpochMs)]),
  )
  await writeFile(join(aside, 'months.json'), JSON.stringify(hashes))
  const { documents, approvals } = await documentsOf({
    ...request,
    store: bounded,
    model,
    recipe,
    index,
    emptyFolder: aside,
    isOfThePresent: !days.anyBeyond && presentOf(request) - cutOffEpochMs < 60_000,
  })
  const { slices } = documents.slices
  const parts: FrozenPart[] = []
  for (const [name, content] of Object.entries(documents))
    parts.push(await writeDocument(aside, name, content))
  for (const { url, sha256, bytes } of slices) {
    const name = url.slice(url.lastIndexOf('/') + 1)
    await flush(join(slicesAside, name))
    parts.push({ name, sha256, bytes })
  }
  await flush(slicesAside)
  const series = recipe.series
  return {
    site,
    cutOffEpochMs,
    revision: mark.recordsRevision,
    software,
    readings: await countReadings(store, slicesAside, slices, { model, series, approvals }),
    parts: parts.toSorted((one, other) => (one.name < other.name ? -1 : 1)),
  }
}

const presentOf = ({ model, now }: SetRequest): number => model.facts.presentEpochMs ?? now()
