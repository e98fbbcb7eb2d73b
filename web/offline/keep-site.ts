import type { Slice, SliceList } from '#contract/slice-list.ts'
import { documentCache, keptAtHeader, sliceCache } from '../service-worker/kept-names.ts'
import { fetchSlice } from '../slices/fetch-slice.ts'
import type { KeepingProgress } from './keep-shell.ts'

/** Which readings are kept: hourly and daily values of all months, and raw ones of the months chosen. */
export const slicesToKeep = (list: SliceList, rawMonths: ReadonlySet<string>): readonly Slice[] =>
  list.slices.filter(({ resolution, month }) => resolution !== 'raw' || rawMonths.has(month))

/** Documents by which the page draws a site: its records, its latest states, its list of slices. */
export const documentsOf = (site: string): readonly string[] => {
  const path = `/api/sites/${encodeURIComponent(site)}`
  const parts = ['state', 'slices', 'network', 'field-guide', 'alerts']
  return ['/api/sites', path, ...parts.map((part) => `${path}/${part}`)]
}

/** Which of the slices this device has. */
export async function keptSlices(slices: readonly Slice[]): Promise<ReadonlySet<string>> {
  const store = await caches.open(sliceCache)
  const names = new Set((await store.keys()).map(({ url }) => new URL(url).pathname))
  return new Set(
    slices.filter(({ url }) => names.has(new URL(url, location.href).pathname)).map(({ url }) => url),
  )
}

/** Keeps a site's documents and the slices given. Stopped half way, what came stays and need not come again. */
export async function keepSite(
  site: string,
  slices: readonly Slice[],
  onProgress: (progress: KeepingProgress) => void,
  signal: AbortSignal,
): Promise<void> {
  const store = await caches.open(documentCache)
  for (const path of documentsOf(site)) {
    const answer = await fetch(path, { headers: { accept: 'application/json' }, signal })
    // A server of an earlier version has fewer documents.
    if (answer.status === 404) continue
    if (!answer.ok) throw new Error(`${path} could not be kept: the server answered ${answer.status}.`)
    if (answer.headers.has(keptAtHeader))
      throw new Error('The server does not answer: nothing newer can be kept now.')
    const headers = { 'content-type': 'application/json', [keptAtHeader]: String(Date.now()) }
    await store.put(path, new Response(await answer.arrayBuffer(), { headers }))
  }
  const bytesTotal = slices.reduce((sum, { bytes }) => sum + bytes, 0)
  let bytesDone = 0
  for (const slice of slices) {
    await fetchSlice(slice, signal)
    const kept = await (await caches.open(sliceCache)).match(slice.url)
    if (!kept)
      throw new Error(
        `There is no room for the readings of ${slice.month}: ${megabytes(bytesDone)} were kept. Free storage on this device, or keep fewer months.`,
      )
    bytesDone += slice.bytes
    onProgress({ bytesDone, bytesTotal })
  }
}

export const megabytes = (bytes: number): string =>
  bytes >= 1e9
    ? `${(bytes / 1e9).toFixed(bytes < 1e10 ? 1 : 0)} GB`
    : `${(bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0)} MB`
