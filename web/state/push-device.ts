import type { OwnDevices } from '#contract/alert-delivery.ts'
import { askServer, changeServer, sendServer, sentenceOf } from './ask-server.ts'
import { me } from './own-account.ts'

/** How this device stands to being told while the page is closed: why it cannot, whether it is. */
export type PushStanding =
  | { readonly kind: 'cannot'; readonly why: string }
  | { readonly kind: 'off' }
  | { readonly kind: 'on' }

const workerPath = '/push-worker.js'
/** Nothing of the page lies under it: the worker answers no requests. */
const workerScope = '/push/'
/** By whom this device was asked to be told: another person who signs in on it has not asked. */
const askedByKey = 'stillground-push-asked-by'

/** Why this browser can tell nobody while the page is closed, in words; null: it can. */
export function pushHindrance(): string | null {
  if (!isSecureContext)
    return 'This page was not opened over https, and browsers show nothing of such a page while it is closed.'
  const isAppleHandheld = 'standalone' in navigator && navigator.maxTouchPoints > 1
  if (isAppleHandheld && (navigator as { standalone?: boolean }).standalone !== true)
    return 'This browser tells of a page only once it stands on the home screen: use Share, Add to Home Screen, and open it from there.'
  if (!('serviceWorker' in navigator) || !('PushManager' in window) || typeof Notification === 'undefined')
    return 'This browser cannot tell of anything while the page is closed.'
  if (Notification.permission === 'denied')
    return 'The browser was told to show nothing of this page while it is closed. Allow notifications for this page in its settings, then look here again.'
  return null
}

/** How this device stands. */
export async function lookAtPush(): Promise<PushStanding> {
  const why = pushHindrance()
  if (why !== null) return { kind: 'cannot', why }
  return (await subscriptionHere()) ? { kind: 'on' } : { kind: 'off' }
}

/** Asks the browser's leave and has the server tell this device. Rejects, saying why, where either does not. */
export async function tellThisDevice(publicKey: string): Promise<void> {
  if ((await Notification.requestPermission()) !== 'granted')
    throw new Error('The browser was not given leave to show anything, so this device is not told.')
  const registration = await navigator.serviceWorker.register(workerPath, {
    scope: workerScope,
    updateViaCache: 'none',
  })
  await isActive(registration)
  await subscribe(registration, publicKey)
  localStorage.setItem(askedByKey, me()?.person?.signInName ?? '')
}

/** The server tells this device no longer, and the browser forgets that it did. */
export async function stopTellingThisDevice(devices: OwnDevices['devices']): Promise<void> {
  await forgetPush()
  for (const { id, isOfThisSession } of devices)
    if (isOfThisSession) await changeServer('DELETE', `/api/me/devices/${encodeURIComponent(id)}`)
}

/** Before one signs out: whoever signs in next on this device has not asked to be told on it. */
export async function forgetPush(): Promise<void> {
  localStorage.removeItem(askedByKey)
  await (await subscriptionHere())?.unsubscribe()
}

/**
 * Tells the server again that this device is told: by the session that it has now, since a device is told only while
 * the session lasts by which it was asked for.
 */
export async function renewPush(): Promise<void> {
  const signInName = me()?.person?.signInName
  const askedBy = localStorage.getItem(askedByKey)
  if (askedBy === null || signInName === undefined || pushHindrance() !== null) return
  if (askedBy !== signInName) return forgetPush()
  const registration = await navigator.serviceWorker.getRegistration(workerScope)
  if (!registration || Notification.permission !== 'granted') return
  const { publicKey, hindrance } = await askServer<OwnDevices>('/api/me/devices')
  if (hindrance === null) await subscribe(registration, publicKey)
}

async function subscribe(registration: ServiceWorkerRegistration, publicKey: string): Promise<void> {
  const { pushManager } = registration
  const earlier = await pushManager.getSubscription()
  // Of other keys of the server, such as those of another data folder: what is sent under the new ones would not come.
  const isForeign =
    earlier !== null && toBase64url(earlier.options.applicationServerKey ?? new ArrayBuffer(0)) !== publicKey
  if (isForeign) await earlier.unsubscribe()
  const subscription =
    earlier && !isForeign
      ? earlier
      : await pushManager.subscribe({ userVisibleOnly: true, applicationServerKey: publicKey }).catch(refused)
  const { endpoint, keys } = subscription.toJSON()
  await sendServer('/api/me/devices', { endpoint, keys })
}

function refused(cause: unknown): never {
  throw new Error(
    `The browser would not set it up (${sentenceOf(cause)}). Private windows cannot, and some networks keep browsers from the push service of their maker.`,
    { cause },
  )
}

async function subscriptionHere(): Promise<PushSubscription | null> {
  if (!('serviceWorker' in navigator)) return null
  const registration = await navigator.serviceWorker.getRegistration(workerScope)
  if (registration?.scope !== new URL(workerScope, location.origin).href) return null
  return registration.pushManager.getSubscription()
}

/** A browser subscribes only where the worker runs. */
function isActive(registration: ServiceWorkerRegistration): Promise<void> {
  const worker = registration.installing ?? registration.waiting
  if (registration.active || !worker) return Promise.resolve()
  return new Promise((resolve, reject) => {
    worker.addEventListener('statechange', () => {
      if (worker.state === 'activated') resolve()
      if (worker.state === 'redundant') reject(new Error('The browser did not keep what shows alerts.'))
    })
  })
}

function toBase64url(bytes: ArrayBuffer): string {
  const letters = Array.from(new Uint8Array(bytes), (byte) => String.fromCharCode(byte)).join('')
  return btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '')
}
