import { randomBytes } from 'node:crypto'
import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'

const keyBytes = 32

/**
 * The key with which secrets in the data file are sealed. Made at the first start and kept beside it, readable by the
 * server's own user only: a copy of the data file alone gives none of them away.
 */
export async function readOrMakeSealKey(dataFolder: string): Promise<Buffer> {
  const path = join(dataFolder, 'seal-key')
  await mkdir(dataFolder, { recursive: true })
  const text = await readFile(path, 'utf8').catch(async (cause: NodeJS.ErrnoException) => {
    if (cause.code !== 'ENOENT') throw new Error(`The key at ${path} cannot be read.`, { cause })
    const fresh = randomBytes(keyBytes).toString('base64url')
    await writeFile(path, `${fresh}\n`, { mode: 0o600, flag: 'wx' })
    return fresh
  })
  const key = Buffer.from(text.trim(), 'base64url')
  if (key.length !== keyBytes)
    throw new Error(
      `The key at ${path} has ${key.length} bytes; ${keyBytes} are expected. Put the right file back; without it nobody can sign in with one-time codes.`,
    )
  return key
}
