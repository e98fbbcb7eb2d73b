import { createHash } from 'node:crypto'
import { keepFile } from '../intake/keep-file.ts'
import { headBytes } from './agreed-media-type.ts'

/** Largest attachment that is taken, bytes. */
export const largestAttachmentBytes = 64 * 1024 ** 2

export type AttachmentKeeping =
  /** `head`: their beginning, which tells what they are. */
  | { readonly bytes: number; readonly head: Uint8Array }
  /** More bytes than the limit; nothing was kept. */
  | { readonly tooLargeAfterBytes: number }
  /** The bytes have another sum than the one they were sent under; nothing was kept. */
  | { readonly otherSha256: string }

/** Keeps the bytes of an attachment beside the files of loggers, under their SHA-256, if that is the one expected. */
export async function keepAttachmentBytes(
  filesFolder: string,
  sha256: string,
  source: AsyncIterable<Uint8Array>,
  signal?: AbortSignal,
): Promise<AttachmentKeeping> {
  const head: number[] = []
  const look = (chunk: Uint8Array) => {
    if (head.length < headBytes) head.push(...chunk.subarray(0, headBytes - head.length))
  }
  try {
    const keeping = await keepFile(filesFolder, checked(source, sha256, look), largestAttachmentBytes, {
      ...(signal && { signal }),
    })
    return 'kept' in keeping ? { bytes: keeping.kept.bytes, head: Uint8Array.from(head) } : keeping
  } catch (cause) {
    if (cause instanceof OtherBytes) return { otherSha256: cause.sha256 }
    throw cause
  }
}

/** Breaks off the keeping at the end of the bytes, before they get a name. */
class OtherBytes extends Error {
  readonly sha256: string

  constructor(sha256: string) {
    super(`the bytes have SHA-256 ${sha256}`)
    this.sha256 = sha256
  }
}

async function* checked(
  source: AsyncIterable<Uint8Array>,
  expected: string,
  look: (chunk: Uint8Array) => void,
): AsyncGenerator<Uint8Array> {
  const hash = createHash('sha256')
  for await (const chunk of source) {
    hash.update(chunk)
    look(chunk)
    yield chunk
  }
  const sha256 = hash.digest('hex')
  if (sha256 !== expected) throw new OtherBytes(sha256)
}
