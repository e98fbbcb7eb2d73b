import { createHash } from 'node:crypto'
import {
  closeSync,
  fsyncSync,
  openSync,
  readFileSync,
  readSync,
  renameSync,
  rmSync,
  writevSync,
} from 'node:fs'
import { dirname } from 'node:path'
import { assert } from '#domain/assert.ts'

/** The data file begins with three headers of 4 KiB; the last two say, in turn, which blocks are valid. Blocks follow. */
export const headerBytes = 3 * 4096
const magic = Buffer.from('Stillground: before checkpoint 1\n')
const lengthBytes = 8
const digestBytes = 32

export interface KeptBlock {
  /** In bytes from the beginning of the data file. */
  readonly position: number
  readonly bytes: Buffer
}

/** What the data file held, before a checkpoint, where the checkpoint writes over it. */
export interface CheckpointJournal {
  readonly headers: Buffer
  readonly blocks: readonly KeptBlock[]
}

export const journalPath = (dataFile: string): string => `${dataFile}.before-checkpoint`

/**
 * Keeps the headers and the named blocks of the data file in a file beside it, which is whole and on the disk
 * when this returns, or not there. Layout: magic, length of what follows up to the digest, headers, then position
 * and length of each block before its bytes, SHA-256 of all that; numbers are 64 bit, little endian.
 */
export function writeJournal(
  dataFile: string,
  reading: number,
  positions: readonly number[],
  blockBytes: number,
): void {
  const parts = [readAt(reading, 0, headerBytes)]
  for (const position of positions)
    parts.push(numberOf(position), numberOf(blockBytes), readAt(reading, position, blockBytes))
  const head = Buffer.concat([magic, numberOf(parts.reduce((sum, part) => sum + part.length, 0))])
  const digest = createHash('sha256')
  for (const part of [head, ...parts]) digest.update(part)

  const path = journalPath(dataFile)
  const beside = `${path}.new`
  const writing = openSync(beside, 'w')
  try {
    for (const part of [head, ...parts, digest.digest()]) {
      const written = writevSync(writing, [part])
      if (written !== part.length)
        throw new Error(`Only ${written} of ${part.length} bytes could be written to ${beside}.`)
    }
    fsyncSync(writing)
  } catch (cause) {
    closeSync(writing)
    rmSync(beside, { force: true })
    throw cause
  }
  closeSync(writing)
  renameSync(beside, path)
  syncFolder(path)
}

/** The journal beside the data file; null when there is none, or when it is not whole. */
export function readJournal(dataFile: string): CheckpointJournal | null {
  const bytes = contentOf(journalPath(dataFile))
  const begin = magic.length + lengthBytes
  if (bytes === null || bytes.length < begin + headerBytes + digestBytes) return null
  if (!bytes.subarray(0, magic.length).equals(magic)) return null
  const end = begin + Number(bytes.readBigUInt64LE(magic.length))
  if (bytes.length !== end + digestBytes) return null
  const digest = createHash('sha256').update(bytes.subarray(0, end)).digest()
  if (!digest.equals(bytes.subarray(end))) return null
  const blocks: KeptBlock[] = []
  for (let at = begin + headerBytes; at < end; ) {
    const length = Number(bytes.readBigUInt64LE(at + lengthBytes))
    const from = at + 2 * lengthBytes
    blocks.push({
      position: Number(bytes.readBigUInt64LE(at)),
      bytes: bytes.subarray(from, from + length),
    })
    at = from + length
  }
  return { headers: bytes.subarray(begin, begin + headerBytes), blocks }
}

export function removeJournal(dataFile: string): void {
  const path = journalPath(dataFile)
  for (const leftover of [path, `${path}.new`]) rmSync(leftover, { force: true })
}

/** A name given or taken in a folder reaches the disk with the folder. */
export function syncFolder(path: string): void {
  const folder = openSync(dirname(path), 'r')
  fsyncSync(folder)
  closeSync(folder)
}

export function readAt(file: number, position: number, length: number): Buffer {
  const bytes = Buffer.alloc(length)
  const got = readSync(file, bytes, 0, length, position)
  assert(got === length, `${got} of ${length} bytes of the data file at ${position}`)
  return bytes
}

function numberOf(value: number): Buffer {
  const bytes = Buffer.alloc(lengthBytes)
  bytes.writeBigUInt64LE(BigInt(value))
  return bytes
}

function contentOf(path: string): Buffer | null {
  try {
    return readFileSync(path)
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'ENOENT') return null
    throw cause
  }
}
