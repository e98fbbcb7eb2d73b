import { createHash, randomBytes } from 'node:crypto'

/** A secret for one link or one device: 256 random bits for its holder, of which the server keeps the SHA-256 (hex). */
export function makeSecretToken(): { readonly token: string; readonly sha256: string } {
  const token = randomBytes(32).toString('base64url')
  return { token, sha256: sha256OfToken(token) }
}

export const sha256OfToken = (token: string): string => createHash('sha256').update(token).digest('hex')
