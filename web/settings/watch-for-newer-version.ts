import { onCleanup } from 'solid-js'
import { reportTrouble } from '../state/notices.ts'

const lookEveryMs = 15 * 60_000

/**
 * Where a worker keeps this page on the device, the page is the one that was kept: a newer one that is ready is told,
 * and taken when a person says so, never under their hands.
 */
export function watchForNewerVersion(): void {
  const workers = navigator.serviceWorker
  if (!workers) return
  let ended = false
  let timer: ReturnType<typeof setInterval> | undefined
  let asked = false
  let hadWorker = workers.controller !== null
  const changed = () => {
    if (asked) location.reload()
    else if (hadWorker)
      reportTrouble({
        sentence:
          'Another tab changed to a newer version of this page; this one is still the older, and some of its parts may be gone. What was written and kept stays.',
        retryName: 'Load the newer version here too',
        retry: () => location.reload(),
      })
    hadWorker = true
  }
  const tell = (registration: ServiceWorkerRegistration) => {
    // The first worker of a device waits for nobody: there is no older page.
    if (!registration.waiting || !registration.active) return
    reportTrouble({
      sentence:
        'A newer version of this page is ready on this device; what you see is the older one. What was written and kept stays. Photos that are not kept yet have to be added again.',
      retryName: 'Change to the newer version',
      retry: () => {
        asked = true
        registration.waiting?.postMessage('take-over')
      },
    })
  }
  const watch = (registration: ServiceWorkerRegistration) => {
    if (ended) return
    tell(registration)
    registration.addEventListener('updatefound', () => {
      const coming = registration.installing
      coming?.addEventListener('statechange', () => {
        if (coming.state === 'installed') tell(registration)
      })
    })
    // Without a network there is nothing newer to be found.
    const look = () => void registration.update().catch(() => undefined)
    look()
    timer = setInterval(look, lookEveryMs)
  }
  workers.addEventListener('controllerchange', changed)
  void workers.getRegistration('/').then((registration) => {
    if (registration) watch(registration)
  })
  onCleanup(() => {
    ended = true
    clearInterval(timer)
    workers.removeEventListener('controllerchange', changed)
  })
}
