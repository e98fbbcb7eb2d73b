import { Webhook as ReferenceWebhook } from 'standardwebhooks'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { AlertDelivery, GivenSecret, TestedDelivery } from '#contract/alert-delivery.ts'
import { verifySigned } from '../../../api/alerts/delivery/webhook-signature.ts'
import { raisedMessage } from '../../support/alert-message.ts'
import { localDelivery } from '../../support/local-delivery.ts'
import { type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'
import { openReceiver, type Receiver } from '../../support/receiver.ts'

const page = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const path = '/api/sites/small-quay/webhooks'
let receiver: Receiver
let open: OpenAccounts
let cookie: string

beforeAll(async () => {
  receiver = await openReceiver()
  open = await openAccounts({ delivery: localDelivery(`relay.example:${receiver.port}`) })
  await open.join('chief', 'small-quay', 'administrator')
  cookie = await open.cookieOf('chief')
})
beforeEach(() => {
  receiver.received.length = 0
  receiver.answerWith(204)
})
afterAll(async () => {
  await open.close()
  await receiver.close()
})

const ask = (method: string, at: string, body?: object) =>
  open.app.request(at, {
    method,
    headers: { ...page, cookie },
    ...(body && { body: JSON.stringify(body) }),
  })
const draft = (name: string, changes: object = {}) => ({
  name,
  url: `http://relay.example:${receiver.port}/hook?key=1`,
  kinds: ['closed', 'raised'],
  scheme: 'shared-secret',
  ...changes,
})
const make = async (name: string, changes: object = {}) =>
  (await (await ask('POST', path, draft(name, changes))).json()) as GivenSecret
const list = async () => (await (await ask('GET', path)).json()) as AlertDelivery
const entryOf = async (id: string) => (await list()).webhooks.find((one) => one.id === id)
const test = async (id: string) => (await (await ask('POST', `${path}/${id}/test`)).json()) as TestedDelivery
const headers = (at: number) => receiver.received[at]?.headers as Record<string, string>

describe('webhooks of a site', () => {
  it('are made by an administrator, and their secret is told once', async () => {
    const { id, given } = await make('  Control   room ')
    expect(given).toMatch(/^whsec_/)
    expect(await entryOf(id)).toMatchObject({
      name: 'Control room',
      kinds: ['raised', 'closed'],
      madeBy: 'Person chief',
      scheme: 'shared-secret',
      disabledAtEpochMs: null,
      earlierSecretEndsAtEpochMs: null,
    })
    expect(JSON.stringify(await list())).not.toContain(given)
    const found = await open.store.findWebhook('small-quay', id)
    expect(JSON.stringify(found)).not.toContain(given.replace('whsec_', ''))
    expect(open.reports.join()).not.toContain(given)
  })

  it('are tested by an exercise that the reference library lets in, at the time of the server', async () => {
    const { id, given } = await make('Tested', { kinds: ['silence'] })
    expect(await test(id)).toEqual({
      attempts: [{ outcome: 'delivered', detail: 'Tested: the receiver took it (204).' }],
    })
    const body = String(receiver.received[0]?.body)
    expect(JSON.parse(body)).toMatchObject({ exercise: true, type: 'exercise.drill' })
    const signed = headers(0)
    const at = Number(signed['webhook-timestamp']) * 1000
    expect(at).toBe(Date.UTC(2027, 9, 21))
    expect(new ReferenceWebhook(given).sign(signed['webhook-id'] ?? '', new Date(at), body)).toBe(
      signed['webhook-signature'],
    )
  })

  it('sign with both secrets for a day after one was replaced, and then with the new one alone', async () => {
    const first = await make('Replaced')
    const second = (await (
      await ask('POST', `${path}/${first.id}/secret`, { scheme: 'key-pair' })
    ).json()) as GivenSecret
    expect(second.given).toMatch(/^whpk_/)
    const dayMs = 86_400_000
    expect(await entryOf(first.id)).toMatchObject({
      scheme: 'key-pair',
      earlierSecretEndsAtEpochMs: second.earlierEndsAtEpochMs,
    })
    await test(first.id)
    open.pass(dayMs)
    await test(first.id)
    open.pass(-dayMs)
    const letsIn = (at: number, key: string) =>
      verifySigned(
        {
          id: headers(at)['webhook-id'] ?? '',
          timestamp: headers(at)['webhook-timestamp'] ?? '',
          signatures: headers(at)['webhook-signature'] ?? '',
          body: String(receiver.received[at]?.body),
        },
        [key],
        Number(headers(at)['webhook-timestamp']) * 1000,
      ).ok
    expect([letsIn(0, first.given), letsIn(0, second.given)]).toEqual([true, true])
    expect([letsIn(1, first.given), letsIn(1, second.given)]).toEqual([false, true])
  })

  it('are disabled by the receiver or by a person, and enabled again', async () => {
    const { id } = await make('Disabled')
    receiver.answerWith(410)
    expect((await test(id)).attempts[0]?.outcome).toBe('failed')
    expect((await entryOf(id))?.disabledWhy).toContain('410')
    expect((await ask('PUT', `${path}/${id}/standing`, { disabled: false })).status).toBe(204)
    expect((await entryOf(id))?.disabledWhy).toBeNull()
    await ask('PUT', `${path}/${id}/standing`, { disabled: true })
    expect((await entryOf(id))?.disabledWhy).toBe('Disabled by Person chief.')
  })

  it('are removed with their secrets', async () => {
    const { id } = await make('Removed')
    expect((await ask('DELETE', `${path}/${id}`)).status).toBe(204)
    expect(await entryOf(id)).toBeUndefined()
    for (const [method, at] of [
      ['DELETE', ''],
      ['POST', '/test'],
      ['POST', '/secret'],
      ['PUT', '/standing'],
    ] as const)
      expect(
        (await ask(method, `${path}/${id}${at}`, { scheme: 'key-pair' })).status,
        `${method} ${at}`,
      ).toBe(at === '/standing' ? 400 : 404)
  })

  it.each([
    ['a private address', { url: 'https://10.0.0.1/' }, 'address-not-public'],
    ['a name that leads to one', { url: 'https://elsewhere.example/' }, 'address-not-public'],
    ['no encryption', { url: 'http://elsewhere.example/' }, 'url-unencrypted'],
    ['another scheme', { url: 'ftp://relay.example/' }, 'url-scheme'],
    ['a password in it', { url: 'https://a:b@relay.example/' }, 'url-credentials'],
    ['no kind', { kinds: [] }, 'kinds-expected'],
    ['an unknown kind', { kinds: ['everything'] }, 'body-unreadable'],
    ['no name', { name: ' ' }, 'name-expected'],
    ['a name that is taken', { name: 'control ROOM' }, 'name-taken'],
  ])('are not made with %s', async (_what, changes, code) => {
    const before = (await list()).webhooks.length
    const answer = await ask('POST', path, draft('Refused', changes))
    expect(answer.status).toBe(400)
    expect((await answer.json()).issues.map((issue: { code: string }) => issue.code)).toContain(code)
    expect((await list()).webhooks).toHaveLength(before)
    expect(receiver.received).toHaveLength(0)
  })

  it('tell that their secret is lost where the key of the data folder is another one', async () => {
    const { id } = await make('Lost')
    const delivery = localDelivery(`relay.example:${receiver.port}`)(open.store, () => 0)
    const found = await open.store.findWebhook('small-quay', id)
    if (!found) throw new Error('not found')
    expect(delivery.webhooks.entryOf(found).scheme).toBeNull()
    expect(await delivery.webhooks.test(raisedMessage, id, new AbortController().signal)).toMatchObject({
      outcome: 'failed',
      retry: false,
      detail: expect.stringContaining('Give it a new secret'),
    })
    expect(receiver.received).toHaveLength(0)
  })

  it('and mail can be tried, so often and no more', async () => {
    const mail = () => ask('POST', '/api/sites/small-quay/mail/test', { to: 'ada@works.example' })
    expect(await (await mail()).json()).toMatchObject({ attempts: [{ outcome: 'not-set-up' }] })
    expect((await ask('POST', '/api/sites/small-quay/mail/test', {})).status).toBe(400)
    let answer = await mail()
    for (let sent = 0; answer.status === 200 && sent < 30; sent++) answer = await mail()
    expect(answer.status).toBe(429)
    expect(Number(answer.headers.get('retry-after'))).toBeGreaterThan(0)
    const { id } = await make('Limited')
    expect((await ask('POST', `${path}/${id}/test`)).status).toBe(429)
    expect(receiver.received).toHaveLength(0)
    open.pass(600_000)
    expect((await mail()).status).toBe(200)
  })
})
