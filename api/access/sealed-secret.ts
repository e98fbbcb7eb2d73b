import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto'

const nonceBytes = 12
const tagBytes = 16

/**
 * AES-256-GCM (NIST SP 800-38D) with a nonce of 96 random bits: nonce, ciphertext and tag as base64url. `boundTo` is
 * authenticated with it, so that what is sealed for one account does not open for another.
 */
export function sealSecret(key: Uint8Array, secret: Uint8Array, boundTo: string): string {
  const nonce = randomBytes(nonceBytes)
  const cipher = createCipheriv('aes-256-gcm', key, nonce).setAAD(Buffer.from(boundTo))
  const sealed = Buffer.concat([cipher.update(secret), cipher.final()])
  return Buffer.concat([nonce, sealed, cipher.getAuthTag()]).toString('base64url')
}

/** The secret; throws where the key is another one, it was sealed for something else, or a bit of it changed. */
export function openSealed(key: Uint8Array, sealed: string, boundTo: string): Buffer {
  const bytes = Buffer.from(sealed, 'base64url')
  try {
    const decipher = createDecipheriv('aes-256-gcm', key, bytes.subarray(0, nonceBytes), {
      authTagLength: tagBytes,
    })
      .setAAD(Buffer.from(boundTo))
      .setAuthTag(bytes.subarray(bytes.length - tagBytes))
    return Buffer.concat([
      decipher.update(bytes.subarray(nonceBytes, bytes.length - tagBytes)),
      decipher.final(),
    ])
  } catch (cause) {
    throw new Error('A sealed secret does not open with the key of this data folder.', { cause })
  }
}
