import { createReadStream } from 'node:fs'
import { Readable } from 'node:stream'
import { type Context, Hono } from 'hono'
import type { Dependencies } from '../app.ts'
import type { FieldWork } from '../field/create-field-work.ts'
import { largestAttachmentBytes } from '../field/keep-attachment.ts'
import { problem } from './problem.ts'
import { siteMustExist } from './site-must-exist.ts'

const path = '/api/sites/:site/attachments/:sha256'

/** What a browser may draw in a page of ours: pictures that cannot carry a script. */
const drawable = /^image\/(jpeg|png|webp)$/

/** Photos, sketches and files that belong to field entries, named by their SHA-256. */
export function attachmentRoutes(dependencies: Dependencies & { readonly field: FieldWork }): Hono {
  const { field } = dependencies
  const routes = new Hono()
  routes.use(path, siteMustExist(dependencies))
  routes.use(path, async (context, next) => {
    const sha256 = context.req.param('sha256') ?? ''
    if (/^[0-9a-f]{64}$/.test(sha256)) return next()
    return problem(
      context,
      400,
      'Name of attachment not understood',
      'An attachment is named by its SHA-256: 64 hexadecimal digits in lower case.',
    )
  })

  routes.put(path, async (context) => {
    const { site, sha256 } = context.req.param()
    if (Number(context.req.header('content-length') ?? 0) > largestAttachmentBytes) return tooLarge(context)
    const mediaType = context.req.header('content-type')?.split(';')[0]?.trim().toLowerCase() ?? ''
    const keeping = await field.keepAttachment(
      site,
      sha256,
      /^[\w.+-]{1,100}\/[\w.+-]{1,100}$/.test(mediaType) ? mediaType : 'application/octet-stream',
      context.req.raw.body ?? nothing(),
      context.req.raw.signal,
    )
    if ('tooLargeAfterBytes' in keeping) return tooLarge(context)
    if ('otherSha256' in keeping)
      return problem(
        context,
        422,
        'Other bytes than named',
        `The bytes have SHA-256 ${keeping.otherSha256}, not ${sha256}: they were changed or broken off on the way. Nothing was kept; send them again.`,
      )
    return context.json({ sha256, bytes: keeping.bytes }, 201)
  })

  // HEAD is answered here too, so that a device can ask whether an attachment has arrived.
  routes.on(['GET', 'HEAD'], path, async (context) => {
    const { site, sha256 } = context.req.param()
    const held = await field.findAttachment(site, sha256)
    if (held === null)
      return problem(
        context,
        404,
        'No such attachment',
        'No attachment with this SHA-256 has arrived at this site. It may still be on the device that wrote the entry.',
      )
    const inline = drawable.test(held.mediaType)
    const headers = {
      'content-type': inline ? held.mediaType : 'application/octet-stream',
      'content-disposition': inline ? 'inline' : `attachment; filename="attachment-${sha256.slice(0, 12)}"`,
      'content-length': String(held.bytes),
      'x-content-type-options': 'nosniff',
      etag: `"${sha256}"`,
      'cache-control': 'private, max-age=31536000, immutable',
    }
    if (context.req.header('if-none-match') === headers.etag) return context.body(null, 304, headers)
    if (context.req.method === 'HEAD') return context.body(null, 200, headers)
    return context.body(Readable.toWeb(createReadStream(held.path)) as ReadableStream, 200, headers)
  })

  return routes
}

const tooLarge = (context: Context): Response =>
  problem(
    context,
    413,
    'Attachment too large',
    `At most ${largestAttachmentBytes / 1024 ** 2} MiB are taken as one attachment; nothing was kept. Make the picture smaller, or bring the file to the desk and put it into the inbox folder.`,
  )

async function* nothing(): AsyncGenerator<Uint8Array> {}
