import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { z } from 'zod'
import { layoutSchema } from '#contract/layout.ts'
import type { Dependencies } from '../app.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import { signerAccount, signerName } from './signed-by.ts'
import { siteMustExist } from './site-must-exist.ts'

/** Largest file taken over HTTP; larger ones go through the inbox folder. */
const largestUploadBytes = 2 * 1024 ** 3
/** A first look needs the beginning of a file only. */
const largestLookBytes = 4 * 1024 ** 2
const largestLayoutBytes = 256 * 1024

/** A layout as a person declares it; its version is given by the store. */
const declarationSchema = z.strictObject({ layout: layoutSchema, reason: z.string().min(1).max(500) })

/** Adding files, and what became of them. */
export function fileRoutes(dependencies: Dependencies): Hono {
  const { store, intake, publisher, now } = dependencies
  const routes = new Hono()

  const tooLarge = (bytes: number) => (context: Context) =>
    problem(
      context,
      413,
      'File too large',
      `At most ${Math.round(bytes / 1024 ** 2)} MiB are taken this way. Put the file into the inbox folder instead.`,
    )

  const places = '/api/sites/:site/:place{files|layouts|batches|quarantine|conflicts}'
  for (const path of [places, `${places}/*`]) routes.use(path, siteMustExist(dependencies))

  routes.post(
    '/api/sites/:site/files',
    bodyLimit({ maxSize: largestUploadBytes, onError: tooLarge(largestUploadBytes) }),
    async (context) => {
      const site = context.req.param('site')
      const fileName = context.req.query('name') ?? ''
      if (!isFileName(fileName)) return namelessFile(context)
      const layoutId = context.req.query('layout')
      const receipt = await intake.takeFile({
        site,
        fileName,
        bytes: context.req.raw.body ?? emptyStream(),
        from: senderOf(context),
        receivedAtEpochMs: await receivedAt(dependencies, site),
        ...(layoutId ? { layoutId } : {}),
        signal: context.req.raw.signal,
      })
      publisher.changed(site)
      return context.json(receipt, receipt.outcome === 'refused' ? 422 : 201)
    },
  )

  routes.post(
    '/api/sites/:site/files/look',
    bodyLimit({ maxSize: largestLookBytes, onError: tooLarge(largestLookBytes) }),
    async (context) => {
      const site = context.req.param('site')
      const fileName = context.req.query('name') ?? ''
      if (!isFileName(fileName)) return namelessFile(context)
      const bytes = new Uint8Array(await context.req.arrayBuffer())
      return context.json(await intake.look({ site, fileName, bytes }))
    },
  )

  routes.get('/api/sites/:site/layouts', async (context) =>
    context.json({ layouts: await store.listLayouts(context.req.param('site')) }),
  )

  routes.post(
    '/api/sites/:site/layouts',
    bodyLimit({ maxSize: largestLayoutBytes, onError: tooLarge(largestLayoutBytes) }),
    async (context) => {
      const site = context.req.param('site')
      const read = await readBody(context, declarationSchema, {
        code: 'layout-unreadable',
        what: 'The layout',
      })
      if (!read.ok)
        return problem(
          context,
          400,
          'Layout not understood',
          'The layout was not saved; what is wrong with it stands in issues.',
          read.issues,
        )
      const known = (await store.listLayouts(site)).find(({ id }) => id === read.value.layout.id)
      const layout = { ...read.value.layout, version: (known?.version ?? 0) + 1 }
      await store.putLayout(site, layout, {
        author: signerName(context, 'page on this machine'),
        account: signerAccount(context),
        reason: read.value.reason,
        atEpochMs: now(),
      })
      return context.json({ layout }, 201)
    },
  )

  routes.get('/api/sites/:site/batches', async (context) =>
    context.json({ batches: await store.listBatches(context.req.param('site')) }),
  )

  routes.get('/api/sites/:site/quarantine', async (context) => {
    const batch = context.req.query('batch')
    if (batch !== undefined && !/^\d+$/.test(batch))
      return problem(context, 400, 'Query not understood', `batch is "${batch}"; a batch number is expected.`)
    const entries = await store.listQuarantined(
      context.req.param('site'),
      batch === undefined ? undefined : Number(batch),
    )
    return context.json({ quarantined: entries })
  })

  routes.get('/api/sites/:site/level-lines', async (context) => {
    const sha256 = context.req.query('sha256') ?? ''
    const lines = await intake.levelLines(context.req.param('site'), sha256)
    return lines === null
      ? problem(
          context,
          404,
          'No level book',
          `No level book with SHA-256 "${sha256.slice(0, 64)}" was taken at this site.`,
        )
      : context.json({ lines })
  })

  routes.get('/api/sites/:site/conflicts', async (context) =>
    context.json({ conflicts: await store.listConflicts(context.req.param('site')) }),
  )

  routes.post('/api/sites/:site/batches/:batch/retry', shortBody, async (context) => {
    const site = context.req.param('site')
    const batch = Number(context.req.param('batch'))
    const known = (await store.listBatches(site)).some((receipt) => receipt.batch === batch)
    if (!known) return problem(context, 404, 'No such batch', `Site "${site}" has no batch ${batch}.`)
    const receipt = await intake.retry(site, batch)
    publisher.changed(site)
    return context.json(receipt)
  })

  return routes
}

/** The instant that counts as receipt: for invented data the site's own present, else the clock. */
async function receivedAt({ store, now }: Dependencies, site: string): Promise<number> {
  return (await store.getSite(site))?.facts.presentEpochMs ?? now()
}

/** Who brings a file: a program by its token, the person who is signed in, or whoever is at this machine. */
function senderOf(context: Context): string {
  const token = context.get('ingestTokenName')
  if (token === null) return signerName(context, 'page on this machine')
  return token === '' ? 'HTTP with token' : `HTTP with token ${token}`
}

const isFileName = (name: string): boolean => /^[^/\\\0]{1,200}$/.test(name)

const namelessFile = (context: Context): Response =>
  problem(
    context,
    400,
    'File name needed',
    'Give the file its name as ?name=…, at most 200 characters and without slashes; it is kept with the file and helps to recognise its layout.',
  )

async function* emptyStream(): AsyncGenerator<Uint8Array> {}
