import { createHash, generateKeyPairSync, randomBytes, sign } from 'node:crypto'
import { isoCBOR } from '@simplewebauthn/server/helpers'

/** What a device is shown and does, as Web Authentication Level 3 lays it out. */
export interface Asked {
  readonly challenge: string
  readonly origin: string
  readonly host: string
}

export interface SoftwarePasskey {
  readonly id: string
  /** `navigator.credentials.create` in JSON form, without attestation (6.5.1, 5.8.1). */
  register(asked: Asked, some?: { readonly isVerified?: boolean }): object
  /** `navigator.credentials.get` in JSON form; every call counts one up (6.1.1, 6.3.3). */
  sign(asked: Asked, some?: { readonly userHandle?: string; readonly isVerified?: boolean }): object
  setCounter(counter: number): void
}

const present = 0x01
const verified = 0x04
const attested = 0x40

/** An authenticator of P-256 keys (ES256), so that no device is needed to hold the server against the standard. */
export function createSoftwarePasskey(userHandle: string): SoftwarePasskey {
  const { privateKey, publicKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' })
  const { x = '', y = '' } = publicKey.export({ format: 'jwk' })
  const id = randomBytes(16)
  let counter = 0

  const clientData = (type: string, { challenge, origin }: Asked) =>
    Buffer.from(JSON.stringify({ type, challenge, origin, crossOrigin: false }))
  const sha256 = (bytes: string | Buffer) => createHash('sha256').update(bytes).digest()
  const authenticatorData = (host: string, flags: number, more = Buffer.alloc(0)) => {
    const count = Buffer.alloc(4)
    count.writeUInt32BE(counter)
    return Buffer.concat([sha256(host), Buffer.from([flags]), count, more])
  }
  const fields = { id: id.toString('base64url'), rawId: id.toString('base64url'), type: 'public-key' }

  return {
    id: fields.id,
    register(asked, { isVerified = true } = {}) {
      // COSE key of RFC 9053: kty EC2, alg ES256, curve P-256.
      const key = isoCBOR.encode(
        new Map<number, number | Uint8Array>([
          [1, 2],
          [3, -7],
          [-1, 1],
          [-2, Uint8Array.from(Buffer.from(x, 'base64url'))],
          [-3, Uint8Array.from(Buffer.from(y, 'base64url'))],
        ]),
      )
      const length = Buffer.alloc(2)
      length.writeUInt16BE(id.length)
      const credential = Buffer.concat([Buffer.alloc(16), length, id, Buffer.from(key)])
      const authData = authenticatorData(
        asked.host,
        present | attested | (isVerified ? verified : 0),
        credential,
      )
      const attestation = isoCBOR.encode(
        new Map<string, string | Uint8Array | Map<string, string>>([
          ['fmt', 'none'],
          ['attStmt', new Map<string, string>()],
          ['authData', Uint8Array.from(authData)],
        ]),
      )
      return {
        ...fields,
        clientExtensionResults: {},
        response: {
          clientDataJSON: clientData('webauthn.create', asked).toString('base64url'),
          attestationObject: Buffer.from(attestation).toString('base64url'),
          transports: ['internal'],
        },
      }
    },
    sign(asked, { userHandle: handle = userHandle, isVerified = true } = {}) {
      counter++
      const said = clientData('webauthn.get', asked)
      const authData = authenticatorData(asked.host, present | (isVerified ? verified : 0))
      return {
        ...fields,
        clientExtensionResults: {},
        response: {
          clientDataJSON: said.toString('base64url'),
          authenticatorData: authData.toString('base64url'),
          signature: sign('sha256', Buffer.concat([authData, sha256(said)]), privateKey).toString(
            'base64url',
          ),
          userHandle: Buffer.from(handle).toString('base64url'),
        },
      }
    },
    setCounter(next) {
      counter = next
    },
  }
}
