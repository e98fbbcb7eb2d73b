import type { AlertsDocument } from '#contract/alerts.ts'
import type { FrozenRecords } from '#contract/frozen-records.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import type { SliceList } from '#contract/slice-list.ts'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { ReportManifest } from '#domain/report/report.ts'
import type { Engine } from '../engine/engine.ts'
import type { fetchSlice } from '../slices/fetch-slice.ts'
import { createSliceKeeper, type SliceKeeper } from '../slices/slice-keeper.ts'
import type { FrozenDocuments, ReportSources } from './report-sources.ts'

/** Where documents come from; `optional`: null where the server has none at this path. */
export interface DocumentSource {
  readonly get: <T>(path: string) => Promise<T>
  readonly optional: <T>(path: string) => Promise<T | null>
}

/**
 * Fetches the documents that a manifest names and lays their slices before an engine. One engine serves both data sets:
 * its slices are exchanged when the other is asked, and what both have in common stays.
 */
export async function openSources(
  manifest: ReportManifest,
  source: DocumentSource,
  engine: Engine,
  options: {
    readonly onProgress?: NonNullable<ReportSources['onProgress']>
    readonly fetchBytes?: typeof fetchSlice
    readonly signal?: AbortSignal
  } = {},
): Promise<ReportSources> {
  const site = `/api/sites/${encodeURIComponent(manifest.site)}`
  const now = await fetchSet(site, manifest.frozenSet, source)
  const before =
    manifest.previousFrozenSet === null ? null : await fetchSet(site, manifest.previousFrozenSet, source)
  let keeper: SliceKeeper | null = null
  return {
    manifest,
    now,
    before,
    // A report is the same whoever makes it: what is asked is answered, or it is not made.
    async ask(side, { coarser: _, ...query }) {
      options.signal?.throwIfAborted()
      const list = side === 'now' ? now.slices : (before ?? now).slices
      if (keeper) keeper.replaceList(list)
      else keeper = createSliceKeeper(engine, list, options.fetchBytes)
      const { columns, missing } = await keeper.ask(query, options.signal)
      if (missing[0]) throw missing[0]
      return columns
    },
    ...(options.onProgress && { onProgress: options.onProgress }),
  }
}

async function fetchSet(
  site: string,
  id: string,
  { get, optional }: DocumentSource,
): Promise<FrozenDocuments> {
  const path = `${site}/frozen/${id}`
  const [set, document, alerts, slices, records] = await Promise.all([
    get<FrozenSet>(path),
    get<SiteDocument>(`${path}/site`),
    get<AlertsDocument>(`${path}/alerts`),
    get<SliceList>(`${path}/slices`),
    optional<FrozenRecords>(`${path}/records`),
  ])
  return { set, site: document, alerts, slices, records }
}
