import { createReadStream } from 'node:fs'
import { stat } from 'node:fs/promises'
import { Readable } from 'node:stream'
import type { Context } from 'hono'
import { parseByteRange } from './byte-range.ts'

/** A slice file that never changes under its name, whole or a byte range of it (RFC 9110). */
export async function sliceAnswer(context: Context, path: string, name: string): Promise<Response> {
  const size = (await stat(path)).size
  const headers = {
    'content-type': 'application/vnd.duckdb',
    'accept-ranges': 'bytes',
    etag: `"${name}"`,
    'cache-control': 'private, max-age=31536000, immutable',
  }
  if (context.req.header('if-none-match') === headers.etag) return context.body(null, 304, headers)
  const range = parseByteRange(context.req.header('range'), size)
  if (range === 'unsatisfiable')
    return context.body(null, 416, { ...headers, 'content-range': `bytes */${size}` })
  const { start, end } = range ?? { start: 0, end: size - 1 }
  const partial = range
    ? { 'content-range': `bytes ${start}-${end}/${size}` }
    : ({} as Record<string, string>)
  const status = range ? 206 : 200
  const all = { ...headers, ...partial, 'content-length': String(end - start + 1) }
  if (context.req.method === 'HEAD') return context.body(null, status, all)
  return context.body(Readable.toWeb(createReadStream(path, { start, end })) as ReadableStream, status, all)
}

/** What slice files are named. */
export const sliceNames = /^(raw|hour|day)-\d{4}-\d{2}\.[0-9a-f]{16}\.duckdb$/
