import type { Layout } from '#contract/layout.ts'
import { freshReadingState, readKept } from './read-kept.ts'
import { createRowScanner } from './scan-rows.ts'
import { cellText } from './scanned-row.ts'

/** The beginning of a file, inflated where it is gzip. */
export interface FileHead {
  readonly bytes: Uint8Array
  /** True when these are all its bytes. */
  readonly whole: boolean
  readonly gzip: boolean
}

/** A row of the head as texts. */
export interface HeadRow {
  readonly line: number
  readonly lines: number
  readonly cells: readonly string[]
}

const headBytes = 1 << 18
const mostRows = 300

/** The first 256 KiB of a file, or of what is given of it. */
export async function readHead(source: string | Uint8Array): Promise<FileHead> {
  const state = freshReadingState()
  const pieces: Uint8Array[] = []
  let length = 0
  let whole = true
  for await (const piece of readKept(source, 'utf-8', state, { inflatedBytes: Number.POSITIVE_INFINITY })) {
    pieces.push(piece)
    length += piece.length
    if (length > headBytes) {
      whole = false
      break
    }
  }
  const bytes = new Uint8Array(Buffer.concat(pieces)).subarray(0, headBytes)
  return { bytes, whole: whole && state.broken === null, gzip: state.gzip }
}

/** The head's rows under an encoding and a delimiter; a last row that the head cuts off is left out. */
export function rowsOfHead(head: FileHead, encoding: Layout['encoding'], delimiter: string): HeadRow[] {
  const scanner = createRowScanner(delimiter, headBytes * 2)
  const bytes =
    encoding === 'utf-8' ? head.bytes : new TextEncoder().encode(new TextDecoder(encoding).decode(head.bytes))
  scanner.push(bytes)
  if (head.whole) scanner.finish()
  const rows: HeadRow[] = []
  while (rows.length < mostRows && scanner.next()) {
    const { row } = scanner
    if (row.fault !== null || row.from === row.until) continue
    const cells = Array.from({ length: row.count }, (_, cell) => cellText(row, cell).trim())
    rows.push({ line: row.line, lines: row.lines, cells })
  }
  return rows
}

/** UTF-16 little-endian by its byte order mark, or because every second byte is zero. */
export function looksLikeUtf16(bytes: Uint8Array): boolean {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return true
  const length = Math.min(bytes.length, 4096)
  let odd = 0
  let even = 0
  for (let at = 0; at < length; at++) if (bytes[at] === 0) at % 2 === 1 ? odd++ : even++
  return odd > length * 0.3 && even < length * 0.05
}

/**
 * Whether the head is no text at all: more than one byte in a hundred is a control character that no text file has.
 * A run of the same one counts once, because a logger that lost power leaves a block of zero bytes among good rows.
 */
export function looksBinary(bytes: Uint8Array): boolean {
  if (looksLikeUtf16(bytes)) return false
  let controls = 0
  for (let at = 0; at < bytes.length; at++) {
    const byte = bytes[at] as number
    const control =
      byte < 0x09 || (byte > 0x0d && byte < 0x1a) || (byte > 0x1a && byte < 0x20) || byte === 0x7f
    if (control && byte !== bytes[at - 1]) controls++
  }
  return controls * 100 > bytes.length || (bytes.length > 0 && bytes.every((byte) => byte === 0))
}
