import { Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { z } from 'zod'
import { type FieldResults, mostEntriesAtOnce } from '#contract/field-entry.ts'
import { folderAuthor } from '#domain/site/folder-author.ts'
import type { Dependencies } from '../app.ts'
import type { FieldWork } from '../field/create-field-work.ts'
import { problem } from './problem.ts'
import { readShape } from './read-body.ts'
import { signerName } from './signed-by.ts'
import { siteMustExist } from './site-must-exist.ts'

const recordsPath = '/api/sites/:site/receiver-records'
const path = '/api/sites/:site/field-entries'
const largestRecordsBytes = 4 * 1024 ** 2
const largestBodyBytes = 8 * 1024 ** 2
const bodySchema = z.object({ entries: z.array(z.unknown()).max(mostEntriesAtOnce) })

/** What was written along the works: devices send it, and ask for what others wrote and what came of it. */
export function fieldEntryRoutes(dependencies: Dependencies & { readonly field: FieldWork }): Hono {
  const { field, now } = dependencies
  const routes = new Hono()
  for (const guarded of [path, recordsPath]) routes.use(guarded, siteMustExist(dependencies))

  routes.post(
    path,
    bodyLimit({
      maxSize: largestBodyBytes,
      onError: (context) =>
        problem(
          context,
          413,
          'Too much at once',
          `At most ${largestBodyBytes / 1024 ** 2} MiB of entries are taken at once. Send them in smaller parts; nothing of this part was stored.`,
        ),
    }),
    async (context) => {
      const read = await readShape(context, bodySchema, { code: 'entries-unreadable', what: 'The entries' })
      if (!read.ok)
        return problem(
          context,
          400,
          'Entries not understood',
          `A JSON object with "entries", a list of at most ${mostEntriesAtOnce}, is expected. Nothing was stored.`,
        )
      const results = await field.add(
        context.req.param('site'),
        read.value.entries,
        signerName(context, '') || null,
      )
      return context.json({ results: [...results], serverEpochMs: now() } satisfies FieldResults)
    },
  )

  routes.get(path, async (context) => {
    const after = context.req.query('after') ?? '0'
    if (!/^\d{1,10}$/.test(after))
      return problem(
        context,
        400,
        'Query not understood',
        `after is "${after.slice(0, 60)}"; the "latest" of an earlier answer is expected, or 0.`,
      )
    context.header('cache-control', 'no-store')
    return context.json(await field.list(context.req.param('site'), Number(after)))
  })

  routes.post(
    recordsPath,
    bodyLimit({
      maxSize: largestRecordsBytes,
      onError: (context) =>
        problem(
          context,
          413,
          'File too large',
          `At most ${largestRecordsBytes / 1024 ** 2} MiB of receiver's records are taken at once. Split the file; nothing of it was stored.`,
        ),
    }),
    async (context) => {
      const fileName = context.req.query('name') ?? ''
      const author = signerName(context, context.req.query('author')?.trim() ?? '')
      if (
        !/^[^/\\\0]{1,200}$/.test(fileName) ||
        author.length < 1 ||
        author.length > 200 ||
        author === folderAuthor
      )
        return problem(
          context,
          400,
          'Name needed',
          'Give the name of the file as ?name=… and of the person who brings it as &author=…, at most 200 characters each.',
        )
      const added = await field.addReceiverRecords({
        site: context.req.param('site'),
        fileName,
        author,
        bytes: new Uint8Array(await context.req.arrayBuffer()),
      })
      return added.ok
        ? context.json(added.value, 201)
        : problem(
            context,
            422,
            'Record not understood',
            'Nothing of the file was taken. What is wrong with it is told by line and column; mend that and send it again.',
            added.issues,
          )
    },
  )

  return routes
}
