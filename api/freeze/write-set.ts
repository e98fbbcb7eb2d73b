import { createHash } from 'node:crypto'
import { open, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { FrozenPart, FrozenSet } from '#domain/meeting/frozen-set.ts'
import { canonicalJson } from '../store/model-records.ts'

/** What of a set is hashed into its id: not who froze it, nor when. */
export type Manifest = Omit<FrozenSet, 'id' | 'frozenAtEpochMs' | 'frozenBy'>

export const manifestOf = ({
  id: _,
  frozenAtEpochMs: _at,
  frozenBy: _by,
  ...manifest
}: FrozenSet): Manifest => manifest

/** First 16 hexadecimal digits of the SHA-256 of the manifest's canonical JSON. */
export const manifestId = (manifest: Manifest): string =>
  createHash('sha256').update(canonicalJson(manifest)).digest('hex').slice(0, 16)

/** Writes a document as JSON, onto the disk, and says what it is. */
export async function writeDocument(folder: string, name: string, content: unknown): Promise<FrozenPart> {
  const bytes = Buffer.from(JSON.stringify(content))
  const path = join(folder, `${name}.json`)
  await writeFile(path, bytes)
  await flush(path)
  return { name, sha256: createHash('sha256').update(bytes).digest('hex'), bytes: bytes.byteLength }
}

/** Sees to it that a file or the names in a folder are on the disk. */
export async function flush(path: string): Promise<void> {
  const file = await open(path, 'r')
  try {
    await file.sync()
  } finally {
    await file.close()
  }
}
