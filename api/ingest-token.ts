import { createHash, randomBytes } from 'node:crypto'
import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'

/**
 * The token with which other programs add files. Made at the first start and kept in the data folder,
 * readable by the server's own user only; never printed.
 */
export async function readOrMakeIngestToken(dataFolder: string): Promise<{ path: string; sha256: string }> {
  const path = join(dataFolder, 'ingest-token')
  await mkdir(dataFolder, { recursive: true })
  const token = await readFile(path, 'utf8').catch(async (cause: NodeJS.ErrnoException) => {
    if (cause.code !== 'ENOENT') throw new Error(`The ingest token at ${path} cannot be read.`, { cause })
    const fresh = randomBytes(32).toString('base64url')
    await writeFile(path, `${fresh}\n`, { mode: 0o600 })
    return fresh
  })
  return { path, sha256: createHash('sha256').update(token.trim()).digest('hex') }
}
