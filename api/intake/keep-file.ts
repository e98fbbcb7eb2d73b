import { createHash, randomUUID } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { mkdir, open, rename, stat, unlink } from 'node:fs/promises'
import { dirname, join } from 'node:path'

/** Bytes as they come: a stream of chunks, or the path of a file. */
export type FileBytes = AsyncIterable<Uint8Array> | string

export interface KeptFile {
  readonly path: string
  readonly sha256: string
  readonly bytes: number
  /** Whether these bytes were kept before. */
  readonly known: boolean
}

export type Keeping =
  | { readonly kept: KeptFile }
  /** More bytes than the limit; nothing was kept. */
  | { readonly tooLargeAfterBytes: number }

/** Where the bytes with this SHA-256 are kept: two hexadecimal digits, then the whole sum. */
export const keptPath = (filesFolder: string, sha256: string): string =>
  join(filesFolder, sha256.slice(0, 2), sha256)

/**
 * Keeps a file byte for byte under its SHA-256. It is written beside its place, flushed to the disk and then renamed,
 * so that a name never stands for half a file. Memory does not grow with the file.
 */
export async function keepFile(
  filesFolder: string,
  source: FileBytes,
  limitBytes: number,
  options: { onBytes?: (bytes: number) => void; signal?: AbortSignal } = {},
): Promise<Keeping> {
  if (typeof source === 'string') {
    const already = await findKept(filesFolder, source, limitBytes, options.signal)
    if (already) return { kept: already }
  }
  await mkdir(filesFolder, { recursive: true })
  const unfinished = join(filesFolder, `.${randomUUID()}.part`)
  const hash = createHash('sha256')
  let bytes = 0
  const handle = await open(unfinished, 'wx')
  try {
    try {
      const chunks =
        typeof source === 'string' ? createReadStream(source, { highWaterMark: 1 << 18 }) : source
      for await (const chunk of chunks) {
        options.signal?.throwIfAborted()
        bytes += chunk.length
        if (bytes > limitBytes) break
        hash.update(chunk)
        await writeWhole(handle, chunk)
        options.onBytes?.(bytes)
      }
      if (bytes <= limitBytes) await handle.sync()
    } finally {
      await handle.close()
    }
    if (bytes > limitBytes) {
      await unlink(unfinished)
      return { tooLargeAfterBytes: bytes }
    }
    const sha256 = hash.digest('hex')
    const path = keptPath(filesFolder, sha256)
    const already = await stat(path).catch(() => null)
    const known = already?.size === bytes
    if (known) await unlink(unfinished)
    else {
      await mkdir(dirname(path), { recursive: true })
      await rename(unfinished, path)
      await flushFolder(dirname(path))
    }
    return { kept: { path, sha256, bytes, known } }
  } catch (cause) {
    await unlink(unfinished).catch(() => undefined)
    throw cause
  }
}

/** The kept file with the same bytes, if there is one: a file on this disk is then read but not written again. */
async function findKept(
  filesFolder: string,
  source: string,
  limitBytes: number,
  signal: AbortSignal | undefined,
): Promise<KeptFile | null> {
  if ((await stat(source)).size > limitBytes) return null
  const hash = createHash('sha256')
  let bytes = 0
  for await (const chunk of createReadStream(source, { highWaterMark: 1 << 18 })) {
    signal?.throwIfAborted()
    hash.update(chunk)
    bytes += chunk.length
  }
  const sha256 = hash.digest('hex')
  const path = keptPath(filesFolder, sha256)
  const already = await stat(path).catch(() => null)
  return already?.size === bytes ? { path, sha256, bytes, known: true } : null
}

async function writeWhole(handle: Awaited<ReturnType<typeof open>>, chunk: Uint8Array): Promise<void> {
  let written = 0
  while (written < chunk.length) {
    const { bytesWritten } = await handle.write(chunk, written, chunk.length - written)
    written += bytesWritten
  }
}

/** A rename is only on the disk once its folder is. */
async function flushFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}
