import { createRoot } from 'solid-js'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Me } from '#contract/access.ts'
import { knowOwnAccount } from '../../../web/state/own-account.ts'
import {
  forgetPush,
  lookAtPush,
  pushHindrance,
  renewPush,
  stopTellingThisDevice,
  tellThisDevice,
} from '../../../web/state/push-device.ts'

const key = 'BAAA'
let sent: { method: string; path: string; body: unknown }[]
let signInName: string
let subscription: FakeSubscription | null
let leave: NotificationPermission
let serverKey: string

/** What a browser's push manager gives. */
class FakeSubscription {
  readonly options: { applicationServerKey: ArrayBuffer }
  constructor(publicKey: string) {
    this.options = { applicationServerKey: Uint8Array.from(Buffer.from(publicKey, 'base64url')).buffer }
  }
  toJSON() {
    return { endpoint: 'https://push.example/1', keys: { p256dh: 'k', auth: 'a' }, expirationTime: null }
  }
  async unsubscribe() {
    if (subscription === this) subscription = null
    return true
  }
}

const worker = { active: {}, installing: null, waiting: null, scope: `${location.origin}/push/` }
const registration = {
  ...worker,
  pushManager: {
    getSubscription: async () => subscription,
    subscribe: async ({ applicationServerKey }: { applicationServerKey: string }) => {
      subscription = new FakeSubscription(applicationServerKey)
      return subscription
    },
  },
}

beforeEach(async () => {
  localStorage.clear()
  sent = []
  signInName = 'ada'
  subscription = null
  leave = 'granted'
  serverKey = key
  vi.stubGlobal('isSecureContext', true)
  vi.stubGlobal('PushManager', class {})
  vi.stubGlobal(
    'Notification',
    Object.assign(class {}, { permission: 'default', requestPermission: async () => leave }),
  )
  Object.defineProperty(navigator, 'serviceWorker', {
    configurable: true,
    value: { register: async () => registration, getRegistration: async () => registration },
  })
  vi.stubGlobal('fetch', async (path: string, { method = 'GET', body }: RequestInit) => {
    sent.push({ method, path, body: typeof body === 'string' ? JSON.parse(body) : null })
    const json = (content: object) =>
      new Response(JSON.stringify(content), { headers: { 'content-type': 'application/json' } })
    if (path === '/api/me')
      return json({
        accounts: 'needed',
        person: { name: signInName, signInName, memberships: [] },
        hindrance: null,
      } satisfies Partial<Me>)
    if (method === 'GET') return json({ publicKey: serverKey, hindrance: null, devices: [] })
    if (method === 'DELETE') return new Response(null, { status: 204 })
    return json({ id: 'p1' })
  })
  await signIn('ada')
})
afterEach(() => {
  Reflect.deleteProperty(navigator, 'serviceWorker')
  forgetAccount()
  vi.unstubAllGlobals()
})

let forgetAccount = () => {}
async function signIn(name: string) {
  signInName = name
  forgetAccount()
  createRoot((dispose) => {
    forgetAccount = dispose
    knowOwnAccount()
  })
  await new Promise((resolve) => setTimeout(resolve))
  await new Promise((resolve) => setTimeout(resolve))
  sent.length = 0
}
const asked = () => sent.map(({ method, path }) => `${method} ${path}`)

test('a device is told once browser and server agree', async () => {
  expect(await lookAtPush()).toEqual({ kind: 'off' })
  await tellThisDevice(key)
  expect(await lookAtPush()).toEqual({ kind: 'on' })
  expect(sent).toEqual([
    {
      method: 'POST',
      path: '/api/me/devices',
      body: { endpoint: 'https://push.example/1', keys: { p256dh: 'k', auth: 'a' } },
    },
  ])
})

test('without the browser’s leave nothing is sent, and it is said', async () => {
  leave = 'denied'
  await expect(tellThisDevice(key)).rejects.toThrow(/not given leave/)
  expect(sent).toEqual([])
  expect(await lookAtPush()).toEqual({ kind: 'off' })
})

test('why a browser cannot is told', async () => {
  vi.stubGlobal('Notification', { permission: 'denied' })
  expect(pushHindrance()).toContain('Allow notifications')
  vi.stubGlobal('Notification', undefined)
  expect(pushHindrance()).toContain('cannot tell')
  vi.stubGlobal('isSecureContext', false)
  expect(pushHindrance()).toContain('https')
  expect((await lookAtPush()).kind).toBe('cannot')
  vi.stubGlobal('isSecureContext', true)
  Object.defineProperties(navigator, {
    standalone: { configurable: true, value: false },
    maxTouchPoints: { configurable: true, value: 5 },
  })
  expect(pushHindrance()).toContain('home screen')
  Reflect.deleteProperty(navigator, 'standalone')
  Reflect.deleteProperty(navigator, 'maxTouchPoints')
})

test('a new session renews what its owner asked for', async () => {
  await renewPush()
  expect(sent).toEqual([])
  await tellThisDevice(key)
  vi.stubGlobal('Notification', { permission: 'granted' })
  sent.length = 0
  await renewPush()
  expect(asked()).toEqual(['GET /api/me/devices', 'POST /api/me/devices'])
})

test('another person who signs in on the device has asked for nothing, and it is forgotten', async () => {
  await tellThisDevice(key)
  vi.stubGlobal('Notification', { permission: 'granted' })
  await signIn('ben')
  await renewPush()
  expect(sent).toEqual([])
  expect(subscription).toBeNull()
})

test('under other keys of the server the device subscribes anew', async () => {
  await tellThisDevice(key)
  vi.stubGlobal('Notification', { permission: 'granted' })
  const first = subscription
  serverKey = 'BBBB'
  await renewPush()
  expect(subscription).not.toBe(first)
  expect(
    Buffer.from(subscription?.options.applicationServerKey ?? new ArrayBuffer(0)).toString('base64url'),
  ).toBe('BBBB')
})

test('it is told no longer when its owner says so, and forgotten at signing out', async () => {
  await tellThisDevice(key)
  sent.length = 0
  const device = { device: 'x', madeAtEpochMs: 0 }
  await stopTellingThisDevice([
    { ...device, id: 'p1', isOfThisSession: true },
    { ...device, id: 'p2', isOfThisSession: false },
  ])
  expect(asked()).toEqual(['DELETE /api/me/devices/p1'])
  expect(subscription).toBeNull()
  await tellThisDevice(key)
  await forgetPush()
  expect(await lookAtPush()).toEqual({ kind: 'off' })
  expect(localStorage.getItem('stillground-push-asked-by')).toBeNull()
})
