import type { Slice } from '#contract/slice-list.ts'

/** A slice could not be had whole: says which and why. */
export class SliceUnavailable extends Error {
  readonly code = 'slice-unavailable'
  readonly slice: Slice

  constructor(slice: Slice, why: string, cause?: unknown) {
    super(`Readings of ${slice.month} (${slice.resolution}) could not be fetched: ${why}`, { cause })
    this.name = 'SliceUnavailable'
    this.slice = slice
  }
}

const cacheName = 'stillground-slices-1'

/** The bytes of a slice, from the browser's own store of immutable URLs where there is one. */
export async function fetchSlice(slice: Slice, signal?: AbortSignal): Promise<Uint8Array> {
  const store = await openStore()
  const kept = await store?.match(slice.url)
  if (kept) {
    const bytes = new Uint8Array(await kept.arrayBuffer())
    if (bytes.byteLength === slice.bytes) return bytes
    await store?.delete(slice.url)
  }
  let response: Response
  try {
    response = await fetch(slice.url, signal ? { signal } : {})
  } catch (cause) {
    signal?.throwIfAborted()
    throw new SliceUnavailable(slice, 'the server did not answer', cause)
  }
  if (!response.ok) throw new SliceUnavailable(slice, `the server answered ${response.status}`)
  const bytes = new Uint8Array(await response.arrayBuffer())
  if (bytes.byteLength !== slice.bytes)
    throw new SliceUnavailable(slice, `${bytes.byteLength} bytes came instead of ${slice.bytes}`)
  // Storage may be full or refused; the bytes in hand serve all the same.
  await store?.put(slice.url, new Response(bytes.slice())).catch(() => undefined)
  return bytes
}

/** Drops kept slices that lie beside these but that the list no longer names; other sites' stay. */
export async function forgetOtherSlices(urls: Iterable<string>): Promise<void> {
  const store = await openStore()
  if (!store) return
  const wanted = new Set([...urls].map((url) => new URL(url, location.href).href))
  const folders = new Set([...wanted].map(folderOf))
  for (const request of await store.keys())
    if (folders.has(folderOf(request.url)) && !wanted.has(request.url)) await store.delete(request)
}

const folderOf = (url: string) => url.slice(0, url.lastIndexOf('/'))

async function openStore(): Promise<Cache | undefined> {
  try {
    return typeof caches === 'undefined' ? undefined : await caches.open(cacheName)
  } catch {
    // Private windows refuse it.
    return undefined
  }
}
