import { createECDH, randomBytes } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { OwnDevices, TestedDelivery } from '#contract/alert-delivery.ts'
import { localDelivery } from '../../support/local-delivery.ts'
import { type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'
import { openPush } from '../../support/open-push.ts'
import { openReceiver, type Receiver } from '../../support/receiver.ts'

const page = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const path = '/api/me/devices'
const browser = createECDH('prime256v1')
browser.generateKeys()
const auth = randomBytes(16).toString('base64url')
let service: Receiver
let open: OpenAccounts
const cookies = new Map<string, string>()

beforeAll(async () => {
  service = await openReceiver()
  open = await openAccounts({ delivery: localDelivery(`push.example:${service.port}`) })
  for (const name of ['ada', 'ben']) {
    await open.join(name, 'small-quay', 'viewer')
    cookies.set(name, await open.cookieOf(name))
  }
})
beforeEach(() => {
  service.received.length = 0
  service.answerWith(201)
})
afterAll(async () => {
  await open.close()
  await service.close()
})

const ask = (name: string, method: string, at: string, body?: object) =>
  open.app.request(at, {
    method,
    headers: { ...page, cookie: cookies.get(name) ?? '' },
    ...(body && { body: JSON.stringify(body) }),
  })
const subscription = (at: string, changes: object = {}) => ({
  endpoint: `http://push.example:${service.port}/${at}`,
  keys: { p256dh: browser.getPublicKey('base64url'), auth },
  ...changes,
})
const devicesOf = async (name: string) =>
  ((await (await ask(name, 'GET', path)).json()) as OwnDevices).devices
const test = async (name: string) =>
  ((await (await ask(name, 'POST', `${path}/test`)).json()) as TestedDelivery).attempts

describe('devices that are told', () => {
  it('are one’s own, with a key to subscribe to and nothing to push by', async () => {
    expect((await ask('ada', 'POST', path, subscription('a'))).status).toBe(201)
    const answer = await (await ask('ada', 'GET', path)).text()
    expect(JSON.parse(answer)).toMatchObject({
      publicKey: expect.stringMatching(/^[\w-]{87}$/),
      hindrance: null,
      devices: [{ device: 'test', isOfThisSession: true }],
    })
    expect(answer).not.toMatch(/push\.example|p256dh/)
    expect(answer).not.toContain(auth)
    expect(await devicesOf('ben')).toEqual([])
    expect((await test('ben'))[0]?.outcome).toBe('not-set-up')
  })

  it('are tested by an exercise that they can read', async () => {
    expect((await test('ada')).map(({ outcome }) => outcome)).toEqual(['delivered'])
    const reader = { privateKey: browser.getPrivateKey('base64url'), auth }
    expect(JSON.parse(openPush(service.received[0]?.body ?? Buffer.alloc(0), reader)).title).toBe(
      'EXERCISE: Test of your devices',
    )
  })

  it('belong to whoever subscribed on them last', async () => {
    const [before] = await devicesOf('ada')
    await ask('ben', 'POST', path, subscription('a'))
    expect(await devicesOf('ada')).toEqual([])
    expect(await devicesOf('ben')).toHaveLength(1)
    const entries = await open.store.listAudit({ site: null, subjectKind: 'push-device', limit: 5 })
    expect(entries).toContainEqual(
      expect.objectContaining({ action: 'withdrawn', subjectKey: before?.id, name: 'Person ben' }),
    )
  })

  it('are removed by their owner and by nobody else', async () => {
    const [device] = await devicesOf('ben')
    expect((await ask('ada', 'DELETE', `${path}/${device?.id}`)).status).toBe(404)
    expect(await devicesOf('ben')).toHaveLength(1)
    expect((await ask('ben', 'DELETE', `${path}/${device?.id}`)).status).toBe(204)
    expect(await devicesOf('ben')).toEqual([])
  })

  it('are told no more once one signed out on them', async () => {
    await ask('ben', 'POST', path, subscription('b'))
    await ask('ben', 'DELETE', '/api/sessions/current')
    cookies.set('ben', await open.cookieOf('ben'))
    expect((await test('ben'))[0]?.outcome).toBe('not-set-up')
    expect(service.received).toHaveLength(0)
  })

  it.each([
    ['a private address', { endpoint: 'https://192.168.0.1/x' }],
    ['an address without encryption', { endpoint: 'http://elsewhere.example/x' }],
    ['no address', { endpoint: 'x' }],
    ['a short key', { keys: { p256dh: 'AAAA', auth } }],
    ['no keys', { keys: {} }],
  ])('are not taken with %s', async (_what, changes) => {
    expect((await ask('ada', 'POST', path, subscription('c', changes))).status).toBe(400)
    expect(await devicesOf('ada')).toEqual([])
  })
})
