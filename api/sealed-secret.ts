import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto'
import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'

const keyBytes = 32
const nonceBytes = 12
const tagBytes = 16
const form = 'sealed1'

/**
 * The key under which secrets that the server must know in clear are kept in the store. Made at the first start, in
 * the data folder, readable by the server's own user only: whoever has a copy of the data file alone has no secrets.
 * Asked for once a process, after the store is open.
 */
export async function readOrMakeSealingKey(dataFolder: string): Promise<Buffer> {
  const path = join(dataFolder, 'sealing-key')
  await mkdir(dataFolder, { recursive: true })
  const text = await readFile(path, 'utf8').catch(async (cause: NodeJS.ErrnoException) => {
    if (cause.code !== 'ENOENT')
      throw new Error(`The key at ${path}, under which secrets are kept, cannot be read.`, { cause })
    const fresh = randomBytes(keyBytes).toString('base64url')
    await writeFile(path, `${fresh}\n`, { mode: 0o600, flag: 'wx' })
    return fresh
  })
  const key = Buffer.from(text.trim(), 'base64url')
  if (key.length !== keyBytes)
    throw new Error(
      `The key at ${path} has ${key.length} bytes; ${keyBytes} are expected. Put the file back from a copy: what was sealed under it cannot be opened without.`,
    )
  return key
}

/**
 * A secret as text for the store: AES-256-GCM under the key. `belongsTo` says to which record it belongs; it is not kept,
 * and the secret opens for that record alone, so that none can be moved to another by editing the store.
 */
export function seal(key: Buffer, belongsTo: string, secret: string): string {
  const nonce = randomBytes(nonceBytes)
  const cipher = createCipheriv('aes-256-gcm', key, nonce, { authTagLength: tagBytes })
  cipher.setAAD(Buffer.from(belongsTo, 'utf8'))
  const sealed = Buffer.concat([nonce, cipher.update(secret, 'utf8'), cipher.final(), cipher.getAuthTag()])
  return `${form}.${sealed.toString('base64url')}`
}

/** The secret again. Throws where key, record or text are not those it was sealed with. */
export function open(key: Buffer, belongsTo: string, sealed: string): string {
  const [word, text = ''] = sealed.split('.')
  const bytes = Buffer.from(text, 'base64url')
  if (word !== form || bytes.length < nonceBytes + tagBytes)
    throw new Error(`What is kept for ${belongsTo} is no sealed secret.`)
  const decipher = createDecipheriv('aes-256-gcm', key, bytes.subarray(0, nonceBytes), {
    authTagLength: tagBytes,
  })
  decipher.setAAD(Buffer.from(belongsTo, 'utf8'))
  decipher.setAuthTag(bytes.subarray(-tagBytes))
  try {
    return Buffer.concat([decipher.update(bytes.subarray(nonceBytes, -tagBytes)), decipher.final()]).toString(
      'utf8',
    )
  } catch (cause) {
    throw new Error(
      `The secret of ${belongsTo} does not open: it was sealed under another key, or changed. The file sealing-key in the data folder belongs to this store.`,
      { cause },
    )
  }
}
