import { createECDH, createPublicKey, randomBytes, verify } from 'node:crypto'
import { mkdtemp, rm, stat, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { PushSubscription } from '#domain/alerts/push-subscription.ts'
import { readAllowedHosts } from '../../../../api/alerts/delivery/address-guard.ts'
import type { Recipient } from '../../../../api/alerts/delivery/delivery-way.ts'
import { createPushWay, pushBody } from '../../../../api/alerts/delivery/push.ts'
import { type PushKeys, readOrMakePushKeys } from '../../../../api/alerts/delivery/push-keys.ts'
import { nobody, raisedMessage } from '../../../support/alert-message.ts'
import { openPush } from '../../../support/open-push.ts'
import { openReceiver, type Receiver } from '../../../support/receiver.ts'

const browser = createECDH('prime256v1')
browser.generateKeys()
const reader = {
  privateKey: browser.getPrivateKey('base64url'),
  auth: randomBytes(16).toString('base64url'),
}
const ada: Recipient = { ...nobody, account: 'ada' }
let folder: string
let keys: PushKeys
let service: Receiver
let devices: PushSubscription[]

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'push-'))
  keys = await readOrMakePushKeys(folder)
  service = await openReceiver()
  service.answerWith(201)
  devices = [
    {
      id: 'p1',
      account: 'ada',
      session: 's1',
      device: 'Tablet',
      endpoint: `http://push.example:${service.port}/send/abc`,
      p256dh: browser.getPublicKey('base64url'),
      auth: reader.auth,
      madeAtEpochMs: 0,
    },
  ]
})
afterEach(async () => {
  await service.close()
  await rm(folder, { recursive: true, force: true })
})

const wayWith = (
  contact: string | null = 'mailto:alerts@works.example',
  allowed = `push.example:${service.port}`,
) => {
  const hosts = readAllowedHosts(allowed)
  if (!hosts.ok) throw new Error('not read')
  return createPushWay({
    store: {
      listPushSubscriptions: async (account) => devices.filter((one) => one.account === account),
      removePushSubscription: async (account, id) => {
        devices = devices.filter((one) => one.account !== account || one.id !== id)
        return true
      },
    },
    keys,
    contact,
    guard: {
      allowedHosts: hosts.value,
      resolve: async () => [{ address: '127.0.0.1' }],
      now: () => Date.now(),
    },
  })
}
const send = (message = raisedMessage, way = wayWith(), to = ada) =>
  way.send(message, to, new AbortController().signal)

test('a device reads what was sent to it, and the push service does not', async () => {
  expect(await send()).toEqual([
    {
      outcome: 'delivered',
      detail: `Tablet: the push service push.example:${service.port} took it (201).`,
    },
  ])
  const [sent] = service.received
  expect(sent?.headers).toMatchObject({ ttl: '86400', urgency: 'high', 'content-encoding': 'aes128gcm' })
  expect(String(sent?.body)).not.toContain('PZ-04')
  const shown = openPush(sent?.body ?? Buffer.alloc(0), reader)
  expect(JSON.parse(shown)).toEqual({
    title: 'Level 2 passed at PZ-04',
    body: raisedMessage.text,
    path: raisedMessage.path,
    tag: 'small-quay/a-17',
    atEpochMs: raisedMessage.atEpochMs,
  })
})

test('the push service can tell who sends it: a token of RFC 8292 for itself, for less than a day', async () => {
  await send()
  const [, token = '', key = ''] =
    /^vapid t=([^,]+), k=(.+)$/.exec(service.received[0]?.headers.authorization ?? '') ?? []
  expect(key).toBe(keys.publicKey)
  const [head = '', claims = '', signature = ''] = token.split('.')
  const point = Buffer.from(key, 'base64url')
  const publicKey = createPublicKey({
    format: 'jwk',
    key: {
      kty: 'EC',
      crv: 'P-256',
      x: point.subarray(1, 33).toString('base64url'),
      y: point.subarray(33).toString('base64url'),
    },
  })
  const signed = Buffer.from(`${head}.${claims}`)
  expect(
    verify(
      'sha256',
      signed,
      { key: publicKey, dsaEncoding: 'ieee-p1363' },
      Buffer.from(signature, 'base64url'),
    ),
  ).toBe(true)
  const { aud, exp, sub } = JSON.parse(Buffer.from(claims, 'base64url').toString())
  expect([aud, sub]).toEqual([`http://push.example:${service.port}`, 'mailto:alerts@works.example'])
  expect(exp * 1000 - Date.now()).toBeLessThanOrEqual(86_400_000)
  expect(exp * 1000).toBeGreaterThan(Date.now())
})

test('a repetition has the topic of the first, another message another one', async () => {
  await send()
  await send()
  await send({ ...raisedMessage, id: 'msg-2' })
  const [first, again, other] = service.received.map(({ headers }) => headers.topic)
  expect(again).toBe(first)
  expect(other).not.toBe(first)
})

describe('answers', () => {
  test.each([404, 410])('%i removes the device', async (status) => {
    service.answerWith(status)
    expect(await send()).toMatchObject([{ outcome: 'failed', retry: false }])
    expect(devices).toEqual([])
    expect((await send())[0]?.outcome).toBe('not-set-up')
  })

  test.each([
    [400, false],
    [403, false],
    [413, false],
    [429, true],
    [500, true],
    [503, true],
  ])('%i: again %s, and the device stays', async (status, retry) => {
    service.answerWith(status)
    expect(await send()).toMatchObject([{ outcome: 'failed', retry }])
    expect(devices).toHaveLength(1)
  })
})

test('one device that fails keeps nothing from the others', async () => {
  const [first] = devices
  if (!first) throw new Error('no device')
  devices = [{ ...first, id: 'p0', p256dh: 'no key' }, first]
  expect((await send()).map(({ outcome }) => outcome)).toEqual(['failed', 'delivered'])
})

test('an endpoint that is not public gets nothing', async () => {
  devices = devices.map((one) => ({ ...one, endpoint: 'https://127.0.0.1/send' }))
  expect(await send(raisedMessage, wayWith(undefined, ''))).toMatchObject([
    { outcome: 'failed', retry: false },
  ])
  expect(service.received).toHaveLength(0)
})

test('an exercise says so first and is not urgent', async () => {
  await send({ ...raisedMessage, exercise: true })
  const shown = JSON.parse(openPush(service.received[0]?.body ?? Buffer.alloc(0), reader))
  expect(shown.title).toMatch(/^EXERCISE: /)
  expect(shown.body).toMatch(/^This is an exercise\./)
  expect(service.received[0]?.headers.urgency).toBe('normal')
})

test('the longest message stays far below the 4096 bytes that every service takes (RFC 8030)', () => {
  const long = pushBody({ ...raisedMessage, subject: '–'.repeat(999), text: '–'.repeat(9999) })
  expect(Buffer.byteLength(long)).toBeLessThan(2500)
})

test('whoever has no device, or a server that names nobody, is told as not set up', async () => {
  expect((await send(raisedMessage, wayWith(), nobody))[0]?.outcome).toBe('not-set-up')
  expect((await send(raisedMessage, wayWith(null)))[0]).toMatchObject({
    outcome: 'not-set-up',
    detail: expect.stringContaining('STILLGROUND_MAIL_FROM'),
  })
})

test('the keys are made once, for the server alone, and damaged ones are told without repeating them', async () => {
  expect(await readOrMakePushKeys(folder)).toEqual(keys)
  const path = join(folder, 'push-keys.json')
  expect((await stat(path)).mode & 0o777).toBe(0o600)
  await writeFile(path, JSON.stringify({ ...keys, publicKey: 'x' }))
  const failure = await readOrMakePushKeys(folder).catch((cause: Error) => cause)
  expect(failure).toBeInstanceOf(Error)
  expect(String((failure as Error).stack)).not.toContain(keys.privateKey)
})
