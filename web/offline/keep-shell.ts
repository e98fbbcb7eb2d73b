import { keepFiles } from '../service-worker/keep-files.ts'
import type { Shell } from '../service-worker/kept-names.ts'
import { shellCachePrefix } from '../service-worker/kept-names.ts'

export interface KeepingProgress {
  readonly bytesDone: number
  readonly bytesTotal: number
}

/** The files of the page itself as the server has them now. */
export async function fetchShell(signal?: AbortSignal): Promise<Shell> {
  const answer = await fetch('/shell.json', { cache: 'no-cache', ...(signal && { signal }) })
  const isJson = answer.headers.get('content-type')?.includes('json') ?? false
  if (!answer.ok || !isJson)
    throw new Error(
      'This server gives no list of the page’s files (it runs from its sources); nothing was kept.',
    )
  return (await answer.json()) as Shell
}

/**
 * Keeps every file of the page on this device, then sets up the worker that answers from them. What is there already
 * is not fetched again; stopped half way, it goes on from there the next time.
 */
export async function keepShell(
  shell: Shell,
  onProgress: (progress: KeepingProgress) => void,
  signal: AbortSignal,
): Promise<void> {
  const bytesTotal = shell.files.reduce((sum, { bytes }) => sum + bytes, 0)
  let bytesDone = 0
  await keepFiles(globalThis, shell, shellCachePrefix + shell.version, {
    signal,
    onKept: (bytes) => {
      bytesDone += bytes
      onProgress({ bytesDone, bytesTotal })
    },
  })
  await navigator.serviceWorker.register('/service-worker.js', { updateViaCache: 'none' })
  await navigator.serviceWorker.ready
}

/** How much of the page is kept: version and bytes; null: nothing, or not all of any version. */
export async function keptShell(): Promise<{ readonly version: string } | null> {
  if (typeof caches === 'undefined' || !('serviceWorker' in navigator)) return null
  const registration = await navigator.serviceWorker.getRegistration('/')
  if (!registration?.active) return null
  const name = (await caches.keys()).find((one) => one.startsWith(shellCachePrefix))
  return name === undefined ? null : { version: name.slice(shellCachePrefix.length) }
}
