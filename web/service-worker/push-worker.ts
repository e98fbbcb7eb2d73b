import { ownPath, readPush } from './show-push.ts'

declare const self: ServiceWorkerGlobalScope

// A worker of its own, which keeps no files and answers no requests: a device may be told without keeping the page.
self.addEventListener('install', () => void self.skipWaiting())

self.addEventListener('push', (event) => {
  const { title, body, path, tag, atEpochMs } = readPush(event.data?.text(), self.location.origin, Date.now())
  const shown = {
    body,
    tag,
    // It takes the place of an earlier one, and is heard all the same.
    renotify: true,
    requireInteraction: true,
    timestamp: atEpochMs,
    icon: '/mark-192.png',
    data: { path },
  }
  event.waitUntil(self.registration.showNotification(title, shown))
})

// A window of its own: one that is open may hold what somebody is writing.
self.addEventListener('notificationclick', (event) => {
  event.notification.close()
  const path = ownPath(String(event.notification.data?.path ?? '/'), self.location.origin)
  event.waitUntil(self.clients.openWindow(path))
})

// The browser gave the device another address: without telling the server, it would be told no more.
self.addEventListener('pushsubscriptionchange', (event) => {
  const { oldSubscription, newSubscription } = event as PushSubscriptionChangeEvent
  event.waitUntil(
    (async () => {
      const subscription =
        newSubscription ??
        (oldSubscription && (await self.registration.pushManager.subscribe(oldSubscription.options)))
      if (!subscription) return
      const { endpoint, keys } = subscription.toJSON()
      await fetch('/api/me/devices', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ endpoint, keys }),
      })
    })(),
  )
})

interface PushSubscriptionChangeEvent {
  readonly oldSubscription?: PushSubscription | null
  readonly newSubscription?: PushSubscription | null
}
