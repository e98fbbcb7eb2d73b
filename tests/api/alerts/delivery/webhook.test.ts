import { Webhook as ReferenceWebhook } from 'standardwebhooks'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Webhook } from '#domain/alerts/webhook.ts'
import { sealSecret } from '../../../../api/access/sealed-secret.ts'
import { readAllowedHosts } from '../../../../api/alerts/delivery/address-guard.ts'
import type { Attempt } from '../../../../api/alerts/delivery/delivery-way.ts'
import { createWebhookWay, webhookBody, webhookSealName } from '../../../../api/alerts/delivery/webhook.ts'
import { makeWebhookSecret, verifySigned } from '../../../../api/alerts/delivery/webhook-signature.ts'
import type { SealedWebhookSecret } from '../../../../api/store/store.ts'
import { nobody, raisedMessage } from '../../../support/alert-message.ts'
import { openReceiver, type Receiver } from '../../../support/receiver.ts'

const sealKey = Buffer.alloc(32, 3)
const { secret } = makeWebhookSecret('shared-secret')
let receiver: Receiver
let webhook: Webhook
let secrets: SealedWebhookSecret[]

const sealed = (text: string, endsAtEpochMs: number | null = null): SealedWebhookSecret => ({
  sealed: sealSecret(sealKey, Buffer.from(text), webhookSealName('small-quay', 'w1')),
  madeAtEpochMs: 0,
  endsAtEpochMs,
})

beforeEach(async () => {
  receiver = await openReceiver()
  webhook = {
    site: 'small-quay',
    id: 'w1',
    name: 'Control room',
    url: `http://relay.example:${receiver.port}/hook?key=1`,
    kinds: ['raised', 'drill'],
    madeBy: 'Ada Marsh',
    madeAtEpochMs: 0,
    disabledAtEpochMs: null,
    disabledWhy: null,
  }
  secrets = [sealed(secret)]
})
afterEach(() => receiver.close())

const wayWith = (allowed = `relay.example:${receiver.port}`) => {
  const hosts = readAllowedHosts(allowed)
  if (!hosts.ok) throw new Error('not read')
  const now = () => Date.now()
  return createWebhookWay({
    store: {
      findWebhook: async (site, id) =>
        site === webhook.site && id === webhook.id ? { webhook, secrets } : null,
      standWebhook: async (_site, _id, disabled, { reason, atEpochMs }) => {
        webhook = {
          ...webhook,
          disabledAtEpochMs: disabled ? atEpochMs : null,
          disabledWhy: disabled ? reason : null,
        }
        return true
      },
    },
    sealKey,
    guard: { allowedHosts: hosts.value, resolve: async () => [{ address: '127.0.0.1' }], now },
    now,
    origin: 'https://works.example',
  })
}
const send = async (message = raisedMessage, way = wayWith()): Promise<Attempt | undefined> =>
  (await way.send(message, { ...nobody, webhooks: ['w1'] }, new AbortController().signal))[0]
const headersOf = (i: number) => receiver.received[i]?.headers as Record<string, string>

test('a message arrives signed, as the reference library checks it, and the same id every time', async () => {
  expect(await send()).toEqual({ outcome: 'delivered', detail: 'Control room: the receiver took it (204).' })
  await send()
  expect(receiver.received).toHaveLength(2)
  const [first] = receiver.received
  expect(first?.path).toBe('/hook?key=1')
  const verified = new ReferenceWebhook(secret).verify(String(first?.body), headersOf(0))
  expect(verified).toMatchObject({
    exercise: false,
    type: 'alert.raised',
    timestamp: '2027-10-21T03:00:00.000Z',
    data: {
      alert: 'a-17',
      title: 'Level 2 passed at PZ-04',
      url: 'https://works.example/?site=small-quay&alert=a-17',
      facts: { value: 41.2 },
    },
  })
  expect(headersOf(0)['webhook-id']).toBe('msg-1')
  expect(headersOf(1)['webhook-id']).toBe('msg-1')
})

test('while a secret is replaced both sign, and the earlier one no longer once it has ended', async () => {
  const later = makeWebhookSecret('key-pair')
  const verified = (i: number, key: string) =>
    verifySigned(
      {
        id: headersOf(i)['webhook-id'] ?? '',
        timestamp: headersOf(i)['webhook-timestamp'] ?? '',
        signatures: headersOf(i)['webhook-signature'] ?? '',
        body: String(receiver.received[i]?.body),
      },
      [key],
      Date.now(),
    ).ok
  secrets = [sealed(later.secret), sealed(secret, Date.now() + 60_000)]
  await send()
  secrets = [sealed(later.secret), sealed(secret, Date.now() - 1)]
  await send()
  expect([verified(0, secret), verified(0, later.given)]).toEqual([true, true])
  expect([verified(1, secret), verified(1, later.given)]).toEqual([false, true])
})

describe('answers', () => {
  test.each([200, 201, 202, 299])('%i is delivered', async (status) => {
    receiver.answerWith(status)
    expect((await send())?.outcome).toBe('delivered')
  })

  test.each([300, 400, 401, 404, 429, 500, 502, 503, 504])('%i is tried again', async (status) => {
    receiver.answerWith(status)
    expect(await send()).toMatchObject({ outcome: 'failed', retry: true })
  })

  test('410 disables the webhook, and nothing is sent to it after', async () => {
    receiver.answerWith(410)
    expect(await send()).toMatchObject({ outcome: 'failed', retry: false })
    expect(webhook.disabledWhy).toContain('410')
    expect(await send()).toMatchObject({
      outcome: 'failed',
      retry: false,
      detail: expect.stringContaining('disabled'),
    })
    expect(receiver.received).toHaveLength(1)
  })

  test.each([301, 302, 303, 307, 308])('a redirect (%i) is not followed', async (status) => {
    receiver.answerWith((request, response) =>
      request.url === '/hook?key=1'
        ? response.writeHead(status, { location: `http://relay.example:${receiver.port}/other` }).end()
        : response.end(),
    )
    expect(await send()).toMatchObject({ outcome: 'failed', detail: expect.stringContaining('redirect') })
    expect(receiver.received.map(({ path }) => path)).toEqual(['/hook?key=1'])
  })

  test('what the receiver asks to wait is handed on', async () => {
    receiver.answerWith((_request, response) => response.writeHead(503, { 'retry-after': '120' }).end())
    expect(await send()).toMatchObject({ outcome: 'failed', retry: true, askedWaitMs: 120_000 })
  })

  test('a short answer is read to its end, so that the receiver sees no broken connection', async () => {
    let wasCutShort: boolean | undefined
    receiver.answerWith((_request, response) => {
      response.on('close', () => {
        wasCutShort = !response.writableFinished
      })
      response.writeHead(200)
      setTimeout(() => response.end('taken'), 30)
    })
    expect((await send())?.outcome).toBe('delivered')
    await expect.poll(() => wasCutShort).toBe(false)
  })

  test('an id with a full stop, which would divide what is signed elsewhere, travels as its hash', async () => {
    await send({ ...raisedMessage, id: 'a.1.b' })
    await send({ ...raisedMessage, id: 'a.1.b' })
    expect(headersOf(0)['webhook-id']).toMatch(/^[0-9a-f]{64}$/)
    expect(headersOf(1)['webhook-id']).toBe(headersOf(0)['webhook-id'])
  })

  test('of an answer without end next to nothing is read', async () => {
    let written = 0
    let closed = false
    receiver.answerWith((_request, response) => {
      response.writeHead(200)
      const piece = Buffer.alloc(64 * 1024)
      const write = () => {
        while (!response.destroyed && written < 1e9) {
          written += piece.length
          if (!response.write(piece)) return void response.once('drain', write)
        }
      }
      response.on('close', () => {
        closed = true
      })
      response.on('error', () => undefined)
      write()
    })
    expect((await send())?.outcome).toBe('delivered')
    await expect.poll(() => closed).toBe(true)
    // What the two sockets hold between them, and nothing beside.
    expect(written).toBeLessThan(16e6)
  })

  test('a connection that is dropped, or taken by nobody, is tried again', async () => {
    receiver.answerWith((request) => request.socket.destroy())
    expect(await send()).toMatchObject({ outcome: 'failed', retry: true })
    await receiver.close()
    expect(await send()).toMatchObject({
      outcome: 'failed',
      retry: true,
      detail: expect.stringContaining('nothing listens there'),
    })
  })

  test('what is stopped says so and may be tried again', async () => {
    receiver.answerWith(() => {})
    const stop = new AbortController()
    const sent = wayWith().send(raisedMessage, { ...nobody, webhooks: ['w1'] }, stop.signal)
    await expect.poll(() => receiver.received.length).toBe(1)
    stop.abort()
    expect((await sent)[0]).toMatchObject({
      outcome: 'failed',
      retry: true,
      detail: expect.stringContaining('Stopped'),
    })
  })
})

test('a receiver that is not public, and not listed, gets nothing', async () => {
  webhook = { ...webhook, url: 'https://relay.example/hook' }
  expect(await send(raisedMessage, wayWith(''))).toMatchObject({ outcome: 'failed', retry: false })
  expect(receiver.received).toHaveLength(0)
})

test('kinds that it does not take, webhooks of other sites and removed ones are told as not set up', async () => {
  expect((await send({ ...raisedMessage, kind: 'closed' }))?.outcome).toBe('not-set-up')
  expect((await send({ ...raisedMessage, site: 'other-quay' }))?.outcome).toBe('not-set-up')
  expect(await wayWith().send(raisedMessage, nobody, new AbortController().signal)).toEqual([])
  expect(receiver.received).toHaveLength(0)
})

describe('the body', () => {
  test('an exercise is of another type and says so first', () => {
    const body = webhookBody({ ...raisedMessage, exercise: true }, null)
    expect(body.startsWith('{"exercise":true,"type":"exercise.raised"')).toBe(true)
    const { data } = JSON.parse(body)
    expect(data.title).toBe('EXERCISE: Level 2 passed at PZ-04')
    expect(data.text).toMatch(/^This is an exercise/)
    expect(data).not.toHaveProperty('url')
  })

  test('it stays below 20 kB and says when something was left out', () => {
    const facts = Object.fromEntries(Array.from({ length: 3000 }, (_, i) => [`fact ${i}`, i]))
    const body = webhookBody({ ...raisedMessage, facts, text: '–'.repeat(50_000) }, null)
    expect(Buffer.byteLength(body)).toBeLessThanOrEqual(20_000)
    expect(JSON.parse(body).data).toMatchObject({ shortened: true, facts: {} })
    expect(JSON.parse(webhookBody(raisedMessage, null)).data).not.toHaveProperty('shortened')
  })
})
