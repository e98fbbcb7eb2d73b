import { createHash } from 'node:crypto'
import { mkdir, stat } from 'node:fs/promises'
import { join } from 'node:path'
import type { PublishProgress } from '#contract/publishing.ts'
import type { SliceList } from '#contract/slice-list.ts'
import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import { reject } from '#domain/outcome.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Store } from '../store/store.ts'
import { findTrail } from '../trail/find-trail.ts'
import { publishMonths } from './publish-months.ts'
import type { Document, Publisher, PublishReport } from './publisher.ts'
import { type Recipe, readRecipe } from './recipe.ts'
import { recipeOfInstrument } from './recipe-of-instrument.ts'
import { buildSiteDocument } from './site-document.ts'
import { fileNames, readIndex, type SliceIndex } from './slice-index.ts'
import { buildStateDocument } from './state-document.ts'

export interface PublisherDependencies {
  readonly store: Store
  /** Folder under which each site has a folder of slices. */
  readonly folder: string
  readonly now: () => number
  /** Told when publishing in the background fails; the next change tries again. */
  readonly onFailure: (failure: unknown) => void
  /** Told when slices of a site were published, with the revision that they carry. */
  readonly onPublished?: (site: string, revision: number) => void
}

/** How long changes are gathered before they are published together. */
const gatherMs = 400

/**
 * Where changes arrive without a break, publishing rests so many times as long as it took, up to a limit: a month is
 * published whole whatever touched it, and readings are taken in and evaluated by the same cores.
 */
const rest = { times: 3, longestMs: 20_000 } as const

/** What is known of a site between two of its revisions. */
interface Prepared {
  readonly revision: number
  readonly model: SiteModel
  readonly recipe: Recipe
}

/** The publisher over a store whose reduction runs in this process's DuckDB. */
export function createPublisher({
  store,
  folder,
  now,
  onFailure,
  onPublished,
}: PublisherDependencies): Publisher {
  const prepared = new Map<string, Prepared>()
  const indexes = new Map<string, SliceIndex>()
  const running = new Map<string, Promise<PublishReport>>()
  const timers = new Map<string, NodeJS.Timeout>()
  const progress = new Map<string, PublishProgress>()
  const failures = new Map<string, number>()
  const publishingChanges = new Set<string>()
  const changedAtMs = new Map<string, number>()

  let closed = false

  const folderOf = (site: string) => join(folder, site)
  const present = (model: SiteModel) => model.facts.presentEpochMs ?? now()

  async function prepare(site: string): Promise<Prepared | null> {
    const revision = await store.revision(site)
    const known = prepared.get(site)
    if (known?.revision === revision) return known
    const model = await store.getSite(site)
    if (!model) return null
    // While only readings arrive the store hands out the same model, and the recipe of thousands of series stays.
    const recipe = known?.model === model ? known.recipe : await readRecipe(store, site, model)
    const fresh = { revision, model, recipe }
    prepared.set(site, fresh)
    return fresh
  }

  async function indexOf(site: string): Promise<SliceIndex> {
    const index = indexes.get(site) ?? (await readIndex(folderOf(site)))
    indexes.set(site, index)
    return index
  }

  async function publishOnce(
    site: string,
    onMonth: (month: string, at: number, of: number) => void,
  ): Promise<PublishReport> {
    const ready = await prepare(site)
    if (!ready) throw new Error(`There is no site "${site}" to publish.`)
    await mkdir(folderOf(site), { recursive: true })
    const startedAtEpochMs = now()
    progress.set(site, { startedAtEpochMs, month: null, at: 0, of: 0 })
    const { index, report } = await publishMonths({
      store,
      site,
      folder: folderOf(site),
      recipe: ready.recipe,
      revision: ready.revision,
      previous: await indexOf(site),
      onMonth: (month, at, of) => {
        progress.set(site, { startedAtEpochMs, month, at, of })
        onMonth(month, at, of)
      },
    }).finally(() => progress.delete(site))
    indexes.set(site, index)
    failures.delete(site)
    onPublished?.(site, ready.revision)
    return report
  }

  /** One publishing of a site at a time; a second asked for meanwhile follows the first. */
  function publish(site: string, onMonth: (month: string, at: number, of: number) => void = () => {}) {
    const before = running.get(site) ?? Promise.resolve()
    const next = before.catch(() => {}).then(() => publishOnce(site, onMonth))
    running.set(site, next)
    return next.finally(() => {
      if (running.get(site) === next) running.delete(site)
    })
  }

  function publishAfter(site: string, waitMs: number): void {
    timers.set(
      site,
      setTimeout(() => {
        timers.delete(site)
        publishingChanges.add(site)
        const begunMs = performance.now()
        publish(site)
          .catch((failure) => {
            failures.set(site, now())
            onFailure(failure)
          })
          .finally(() => {
            publishingChanges.delete(site)
            const restMs = Math.min(rest.longestMs, rest.times * (performance.now() - begunMs))
            const changedMeanwhile = (changedAtMs.get(site) ?? 0) > begunMs
            if (changedMeanwhile && !closed) publishAfter(site, Math.max(gatherMs, restMs))
          })
      }, waitMs),
    )
  }

  return {
    publish,
    listSites: () => store.listSites(),

    async siteDocument(site) {
      const ready = await prepare(site)
      if (!ready) return null
      const grid = openGridOfSite(ready.model.facts, ready.model.controlPoints)
      if (!grid.ok) throw new Error(grid.issues.map((issue) => issue.message).join(' '))
      const { model, recipe } = ready
      const recipeNow = recipeOfInstrument(model, recipe)
      return document(buildSiteDocument(model, recipe.series, grid.value, present(model), recipeNow))
    },

    async stateDocument(site) {
      const ready = await prepare(site)
      if (!ready) return null
      const index = await indexOf(site)
      const asOfEpochMs = present(ready.model)
      return document(buildStateDocument(ready.model, ready.recipe.series, index, asOfEpochMs))
    },

    async sliceList(site): Promise<SliceList | null> {
      if (!(await prepare(site))) return null
      const index = await indexOf(site)
      const slices = Object.keys(index.months)
        .sort()
        .flatMap((month) => index.months[month]?.slices ?? [])
      return { site, revision: index.revision, slices }
    },

    async sliceFile(site, name) {
      if (!/^[a-z0-9-]+$/.test(site)) return null
      const path = join(folderOf(site), name)
      if (fileNames(await indexOf(site)).includes(name)) return path
      // A page may still hold the list before this one: its files are kept for one publishing.
      return (await stat(path).catch(() => null))?.isFile() ? path : null
    },

    async trail(site, series, atEpochMs) {
      const ready = await prepare(site)
      if (!ready)
        return reject({ code: 'site-unknown', message: `There is no site "${site}" here.`, value: site })
      const { model, recipe } = ready
      const published = { index: await indexOf(site), failed: failures.has(site) }
      return findTrail({ store, site, model, recipe, ...published }, series, atEpochMs)
    },

    async publishing(site) {
      const revision = await store.revision(site)
      if (revision === 0) return null
      const publishedRevision = (await indexOf(site)).revision
      const running = progress.get(site) ?? null
      return {
        running,
        behind: running !== null || publishedRevision < revision,
        publishedRevision,
        failedAtEpochMs: failures.get(site) ?? null,
      }
    },

    changed(site) {
      changedAtMs.set(site, performance.now())
      // What arrives without a break must not put it off for ever.
      if (!timers.has(site) && !publishingChanges.has(site)) publishAfter(site, gatherMs)
    },

    async close() {
      closed = true
      for (const timer of timers.values()) clearTimeout(timer)
      timers.clear()
      await Promise.allSettled(running.values())
    },
  }
}

function document(content: unknown): Document {
  const json = JSON.stringify(content)
  return { json, etag: `"${createHash('sha256').update(json).digest('base64url').slice(0, 22)}"` }
}
