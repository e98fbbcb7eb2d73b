import { open } from 'node:fs/promises'
import { createGunzip } from 'node:zlib'
import type { Layout } from '#contract/layout.ts'

/** What was found out about a kept file while its bytes were read. */
export interface ReadingState {
  gzip: boolean
  /** The compressed stream ended early or is damaged: what came out whole has been given. */
  broken: string | null
  /** More came out than may: reading stopped. */
  overLimit: boolean
  /** Bytes of the kept file read so far. */
  bytesRead: number
}

const pieceBytes = 1 << 18
const compressedPieceBytes = 1 << 14

/**
 * The bytes of a kept file (or of memory) in pieces of at most 256 KiB, inflated where they are gzip and turned into UTF-8 where the
 * layout says that they are something else. `state` says afterwards what was met. A damaged gzip stream gives all
 * that came out before the damage.
 */
export async function* readKept(
  source: string | Uint8Array,
  encoding: Layout['encoding'],
  state: ReadingState,
  limits: { inflatedBytes: number },
): AsyncGenerator<Uint8Array> {
  const inflated = readInflated(source, state, limits.inflatedBytes)
  if (encoding === 'utf-8') yield* inflated
  else {
    const decoder = new TextDecoder(encoding)
    const encoder = new TextEncoder()
    for await (const piece of inflated)
      yield* inPieces(encoder.encode(decoder.decode(piece, { stream: true })))
    yield* inPieces(encoder.encode(decoder.decode()))
  }
}

export const freshReadingState = (): ReadingState => ({
  gzip: false,
  broken: null,
  overLimit: false,
  bytesRead: 0,
})

async function* readInflated(
  source: string | Uint8Array,
  state: ReadingState,
  limitBytes: number,
): AsyncGenerator<Uint8Array> {
  let given = 0
  for await (const piece of inflateIfGzip(rawPieces(source, state), state)) {
    given += piece.length
    if (given > limitBytes) {
      state.overLimit = true
      return
    }
    yield* inPieces(piece)
  }
}

async function* rawPieces(source: string | Uint8Array, state: ReadingState): AsyncGenerator<Uint8Array> {
  if (typeof source !== 'string') {
    state.bytesRead = source.length
    yield* inPieces(source)
    return
  }
  const handle = await open(source, 'r')
  try {
    for (;;) {
      const buffer = new Uint8Array(pieceBytes)
      const { bytesRead } = await handle.read(buffer, 0, pieceBytes, state.bytesRead)
      if (bytesRead === 0) return
      state.bytesRead += bytesRead
      yield bytesRead === pieceBytes ? buffer : buffer.subarray(0, bytesRead)
    }
  } finally {
    await handle.close()
  }
}

async function* inflateIfGzip(
  raw: AsyncGenerator<Uint8Array>,
  state: ReadingState,
): AsyncGenerator<Uint8Array> {
  const first = await raw.next()
  if (first.done) return
  state.gzip = first.value[0] === 0x1f && first.value[1] === 0x8b
  async function* all() {
    try {
      yield first.value as Uint8Array
      yield* raw
    } finally {
      // A reader that stops after the first piece would otherwise leave the file open.
      await raw.return(undefined)
    }
  }
  yield* state.gzip ? inflate(inSmallPieces(all()), state) : all()
}

async function* inSmallPieces(raw: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  for await (const piece of raw) yield* inPieces(piece, compressedPieceBytes)
}

/**
 * Feeds the inflater one small piece at a time and takes out all that it gives before the next,
 * because an iterated stream throws away what it holds when the input turns out to be cut off.
 */
async function* inflate(raw: AsyncIterable<Uint8Array>, state: ReadingState): AsyncGenerator<Uint8Array> {
  const gunzip = createGunzip()
  let out: Uint8Array[] = []
  let fault: Error | null = null
  let closed: () => void = () => undefined
  gunzip.on('data', (chunk: Uint8Array) => out.push(chunk))
  gunzip.on('error', (error) => {
    fault = error
    closed()
  })
  const settled = (start: (done: () => void) => void) =>
    new Promise<void>((done) => {
      closed = done
      start(done)
    })
  try {
    for await (const piece of raw) {
      await settled((done) => gunzip.write(piece, () => done()))
      const pieces = out
      out = []
      yield* pieces
      if (fault) break
    }
    if (!fault) {
      await settled((done) => {
        gunzip.once('end', done)
        gunzip.end()
      })
      yield* out
    }
    if (fault) state.broken = (fault as Error).message
  } finally {
    gunzip.destroy()
  }
}

function* inPieces(bytes: Uint8Array, size = pieceBytes): Generator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size)
}
