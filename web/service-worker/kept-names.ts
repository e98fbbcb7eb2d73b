/** Names of what a device keeps; the page fills the same caches that the service worker answers from. */
export const shellCachePrefix = 'stillground-shell-'
export const documentCache = 'stillground-documents-1'
export const sliceCache = 'stillground-slices-1'

/** On an answer that was kept: when it was, epoch milliseconds of this device. A page must not take it for the server's. */
export const keptAtHeader = 'stillground-kept-at'

/** One file of the page itself: path from the root, bytes as they are kept. */
export interface ShellFile {
  readonly path: string
  readonly bytes: number
}

/** All files that the page needs to start without a network, of one build. */
export interface Shell {
  readonly version: string
  readonly files: readonly ShellFile[]
}
