import type { Shell } from './kept-names.ts'

/**
 * Puts every file of the page that is not there yet into a cache: what another build keeps under the same hashed name is
 * taken over, the rest is fetched, asking the server anew. Rejects at the first file that cannot be had; what
 * came stays, and the next attempt goes on from there.
 */
export async function keepFiles(
  from: { readonly caches: CacheStorage; fetch(path: string, init: RequestInit): Promise<Response> },
  shell: Shell,
  cacheName: string,
  { signal, onKept }: { readonly signal?: AbortSignal; readonly onKept?: (bytes: number) => void } = {},
): Promise<void> {
  const cache = await from.caches.open(cacheName)
  for (const { path, bytes } of shell.files) {
    if (!(await cache.match(path))) {
      const earlier = path.startsWith('/assets/') ? await from.caches.match(path) : undefined
      const answer = earlier ?? (await from.fetch(path, { cache: 'reload', ...(signal && { signal }) }))
      if (!answer.ok) throw new Error(`${path} could not be kept: the server answered ${answer.status}.`)
      await cache.put(path, answer)
    }
    onKept?.(bytes)
  }
}
