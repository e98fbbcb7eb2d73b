import { answerRequest } from './answer-request.ts'
import { keepFiles } from './keep-files.ts'
import { type Shell, shellCachePrefix } from './kept-names.ts'

declare const self: ServiceWorkerGlobalScope
/** Put in by the build. */
declare const __SHELL__: Shell

const shell = __SHELL__
const shellCache = shellCachePrefix + shell.version

// The page fetches the files first, so that it can show progress and be stopped; what it has is not fetched again.
self.addEventListener('install', (event) => event.waitUntil(keepFiles(self, shell, shellCache)))

// In this order: a page that is loaded again on the change must not find the older files.
self.addEventListener('activate', (event) =>
  event.waitUntil(dropOldShells().then(() => self.clients.claim())),
)

self.addEventListener('fetch', (event) => {
  const answer = answerRequest(event.request, {
    origin: self.location.origin,
    caches: self.caches,
    fetch: (request) => fetch(request),
    now: () => Date.now(),
    patienceMs: 4000,
  })
  if (answer) event.respondWith(answer)
})

// A person asked for the newer version; until then open pages keep the files that they began with.
self.addEventListener('message', (event) => {
  if (event.data === 'take-over') void self.skipWaiting()
})

async function dropOldShells(): Promise<void> {
  for (const name of await self.caches.keys())
    if (name.startsWith(shellCachePrefix) && name !== shellCache) await self.caches.delete(name)
}
