import { createReadStream } from 'node:fs'
import { stat } from 'node:fs/promises'
import { Readable } from 'node:stream'
import { Hono } from 'hono'
import type { Dependencies } from '../app.ts'
import { parseByteRange } from './byte-range.ts'
import { problem } from './problem.ts'

const names = /^(raw|hour|day)-\d{4}-\d{2}\.[0-9a-f]{16}\.duckdb$/

/**
 * Slice files: immutable under their name, which carries their content's hash; read whole or by a byte
 * range (RFC 9110), which is how the browser's engine fetches only the blocks that a query touches.
 */
export function sliceFiles({ publisher }: Pick<Dependencies, 'publisher'>): Hono {
  const routes = new Hono()
  routes.on(['GET', 'HEAD'], '/slices/:site/:name', async (context) => {
    const { site, name } = context.req.param()
    const path = names.test(name) ? await publisher.sliceFile(site, name) : null
    if (path === null)
      return problem(
        context,
        404,
        'No such slice',
        'This slice is not published (any more); ask for the list of slices again.',
      )
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
  })
  return routes
}
