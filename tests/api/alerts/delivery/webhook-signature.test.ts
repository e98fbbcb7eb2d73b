import fc from 'fast-check'
import { Webhook } from 'standardwebhooks'
import { describe, expect, test } from 'vitest'
import {
  makeWebhookSecret,
  publicHalf,
  signaturesOf,
  verifySigned,
} from '../../../../api/alerts/delivery/webhook-signature.ts'

const nowEpochMs = Date.now()
const seconds = Math.floor(nowEpochMs / 1000)
const body = '{"type":"alert.raised","text":"Übergang – 4 mm"}'
const message = (keys: readonly string[], at = seconds) => ({
  id: 'msg-1',
  timestamp: String(at),
  signatures: signaturesOf(keys, 'msg-1', at, body),
  body,
})

describe('beside the reference library', () => {
  test('it lets in what is signed here', () => {
    const { secret } = makeWebhookSecret('shared-secret')
    const { id, timestamp, signatures } = message([secret])
    const headers = { 'webhook-id': id, 'webhook-timestamp': timestamp, 'webhook-signature': signatures }
    expect(new Webhook(secret).verify(body, headers)).toEqual(JSON.parse(body))
    expect(() => new Webhook(secret).verify(`${body} `, headers)).toThrow()
    expect(() => new Webhook(makeWebhookSecret('shared-secret').secret).verify(body, headers)).toThrow()
  })

  test('what it signs is let in here, and nothing that was changed', () => {
    const { secret } = makeWebhookSecret('shared-secret')
    const signed = {
      ...message([secret]),
      signatures: new Webhook(secret).sign('msg-1', new Date(seconds * 1000), body),
    }
    expect(verifySigned(signed, [secret], nowEpochMs).ok).toBe(true)
    for (const changed of [
      { ...signed, body: `${body} ` },
      { ...signed, id: 'msg-2' },
      { ...signed, timestamp: String(seconds - 1) },
      { ...signed, signatures: signed.signatures.replace('v1,', 'v1a,') },
      { ...signed, signatures: signed.signatures.slice(0, -5) },
      { ...signed, signatures: '' },
    ])
      expect(verifySigned(changed, [secret], nowEpochMs)).toMatchObject({
        issues: [{ code: 'signature-wrong' }],
      })
  })
})

test('every body is signed as the reference library signs it', () => {
  const { secret } = makeWebhookSecret('shared-secret')
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), fc.nat(4e9), (text, at) => {
      expect(signaturesOf([secret], 'msg-1', at, text)).toBe(
        new Webhook(secret).sign('msg-1', new Date(at * 1000), text),
      )
    }),
    { seed: 6 },
  )
})

test('while a secret is replaced, a receiver with either lets the message in', () => {
  const [earlier, later] = [makeWebhookSecret('shared-secret'), makeWebhookSecret('shared-secret')]
  const signed = message([later.secret, earlier.secret])
  expect(signed.signatures.split(' ')).toHaveLength(2)
  for (const { given } of [earlier, later]) expect(verifySigned(signed, [given], nowEpochMs).ok).toBe(true)
  const headers = {
    'webhook-id': 'msg-1',
    'webhook-timestamp': signed.timestamp,
    'webhook-signature': signed.signatures,
  }
  for (const { secret } of [earlier, later]) expect(new Webhook(secret).verify(body, headers)).toBeTruthy()
})

test('of a key pair the receiver has the public half, which signs nothing', () => {
  const { secret, given } = makeWebhookSecret('key-pair')
  expect(secret).toMatch(/^whsk_/)
  expect(given).toMatch(/^whpk_/)
  expect(publicHalf(secret)).toBe(given)
  const signed = message([secret])
  expect(signed.signatures).toMatch(/^v1a,/)
  expect(verifySigned(signed, [given], nowEpochMs).ok).toBe(true)
  expect(verifySigned({ ...signed, body: 'x' }, [given], nowEpochMs).ok).toBe(false)
  expect(verifySigned(signed, [makeWebhookSecret('key-pair').given], nowEpochMs).ok).toBe(false)
})

test('a message of six minutes ago, or ahead, is refused however it is signed', () => {
  const { secret } = makeWebhookSecret('shared-secret')
  for (const [away, ok] of [
    [-290, true],
    [290, true],
    [-360, false],
    [360, false],
  ] as const)
    expect(verifySigned(message([secret], seconds + away), [secret], nowEpochMs).ok, String(away)).toBe(ok)
  expect(verifySigned({ ...message([secret]), timestamp: 'soon' }, [secret], nowEpochMs).ok).toBe(false)
})

test('secrets have the length that the scheme asks for', () => {
  for (let i = 0; i < 20; i++) {
    const bytes = Buffer.from(makeWebhookSecret('shared-secret').secret.replace('whsec_', ''), 'base64')
    expect(bytes.length).toBeGreaterThanOrEqual(24)
    expect(bytes.length).toBeLessThanOrEqual(64)
  }
  for (const bytes of [23, 65])
    expect(() => signaturesOf([`whsec_${Buffer.alloc(bytes).toString('base64')}`], 'm', 1, '')).toThrow(
      /24 to 64/,
    )
})
