import {
  createHmac,
  createPrivateKey,
  createPublicKey,
  type KeyObject,
  randomBytes,
  sign,
  timingSafeEqual,
  verify,
} from 'node:crypto'
import type { SigningScheme } from '#domain/alerts/webhook.ts'
import { accept, type Outcome, reject } from '#domain/outcome.ts'

/**
 * Signatures of messages by the Standard Webhooks scheme, 1.0.0 (github.com/standard-webhooks/standard-webhooks,
 * spec/standard-webhooks.md): `id.timestamp.body` under HMAC-SHA256 (`v1`, secrets `whsec_`) or ed25519 (`v1a`, keys
 * `whsk_` and `whpk_`, 32 bytes each).
 */
const prefixes = { secret: 'whsec_', privateKey: 'whsk_', publicKey: 'whpk_' }

/** A message as it travels: its three headers and its body, letter by letter. */
export interface SignedMessage {
  readonly id: string
  /** Seconds since 1970, as text. */
  readonly timestamp: string
  readonly signatures: string
  readonly body: string
}

/** A new secret in the scheme's own form, and what the receiver is given: the same secret, or the public half. */
export function makeWebhookSecret(scheme: SigningScheme): {
  readonly secret: string
  readonly given: string
} {
  const random = randomBytes(32).toString('base64')
  if (scheme === 'shared-secret') return { secret: prefixes.secret + random, given: prefixes.secret + random }
  return { secret: prefixes.privateKey + random, given: publicHalf(prefixes.privateKey + random) }
}

/** Of a private key `whsk_` the public one, `whpk_`. */
export function publicHalf(privateKey: string): string {
  const spki = createPublicKey(privateKeyOf(privateKey)).export({ format: 'der', type: 'spki' })
  return prefixes.publicKey + spki.subarray(-32).toString('base64')
}

export const schemeOf = (secret: string): SigningScheme =>
  secret.startsWith(prefixes.privateKey) ? 'key-pair' : 'shared-secret'

/** The signature header: one signature for each secret, so that a receiver who has either lets the message in. */
export function signaturesOf(
  secrets: readonly string[],
  id: string,
  atEpochSeconds: number,
  body: string,
): string {
  const content = Buffer.from(`${id}.${atEpochSeconds}.${body}`, 'utf8')
  return secrets
    .map((secret) =>
      schemeOf(secret) === 'key-pair'
        ? `v1a,${sign(null, content, privateKeyOf(secret)).toString('base64')}`
        : `v1,${hmac(secret, content).toString('base64')}`,
    )
    .join(' ')
}

/** How old, or how far in the future, a message may be for a receiver: five minutes, as in the reference library. */
const toleranceSeconds = 300

/**
 * What a receiver does: lets a message in that one of the secrets (`whsec_`) or public keys (`whpk_`) signed, and that
 * is no older or newer than five minutes.
 */
export function verifySigned(
  { id, timestamp, signatures, body }: SignedMessage,
  keys: readonly string[],
  nowEpochMs: number,
): Outcome<null> {
  const refuse = (code: string, message: string) => reject({ code, message })
  if (!/^\d{1,12}$/.test(timestamp)) return refuse('timestamp-unreadable', 'The timestamp is no number.')
  if (Math.abs(nowEpochMs / 1000 - Number(timestamp)) > toleranceSeconds)
    return refuse('timestamp-stale', 'The message is older or newer than five minutes.')
  const content = Buffer.from(`${id}.${timestamp}.${body}`, 'utf8')
  for (const one of signatures.split(' ')) {
    const [version, text = ''] = one.split(',')
    const signature = Buffer.from(text, 'base64')
    for (const key of keys) {
      const isPublic = key.startsWith(prefixes.publicKey)
      if (version === 'v1a' && isPublic && verify(null, content, publicKeyOf(key), signature))
        return accept(null)
      if (version === 'v1' && !isPublic && isSame(hmac(key, content), signature)) return accept(null)
    }
  }
  return refuse('signature-wrong', 'No signature of the message is by a key that is known.')
}

const isSame = (left: Buffer, right: Buffer) => left.length === right.length && timingSafeEqual(left, right)

function hmac(secret: string, content: Buffer): Buffer {
  const key = Buffer.from(secret.replace(prefixes.secret, ''), 'base64')
  if (key.length < 24 || key.length > 64)
    throw new Error(`A secret of ${key.length} bytes signs nothing; the scheme asks for 24 to 64.`)
  return createHmac('sha256', key).update(content).digest()
}

// RFC 8410: what stands before the 32 bytes of an ed25519 key in its DER form.
const pkcs8Head = Buffer.from('302e020100300506032b657004220420', 'hex')
const spkiHead = Buffer.from('302a300506032b6570032100', 'hex')

const privateKeyOf = (text: string): KeyObject =>
  createPrivateKey({
    key: Buffer.concat([pkcs8Head, keyBytes(text, prefixes.privateKey)]),
    format: 'der',
    type: 'pkcs8',
  })

const publicKeyOf = (text: string): KeyObject =>
  createPublicKey({
    key: Buffer.concat([spkiHead, keyBytes(text, prefixes.publicKey)]),
    format: 'der',
    type: 'spki',
  })

function keyBytes(text: string, prefix: string): Buffer {
  const bytes = Buffer.from(text.replace(prefix, ''), 'base64')
  if (bytes.length !== 32) throw new Error(`A key ${prefix} has 32 bytes; this one has ${bytes.length}.`)
  return bytes
}
