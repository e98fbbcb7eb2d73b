import { type Context, Hono } from 'hono'
import { type FrozenSets, freezeDraftSchema } from '#contract/frozen-sets.ts'
import type { NetworkDocument } from '#contract/network-document.ts'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { Issue } from '#domain/outcome.ts'
import type { Dependencies } from '../app.ts'
import type { Freezing } from '../freeze/freezing.ts'
import { type FrozenDocument, frozenDocuments } from '../freeze/frozen-parts.ts'
import { networkForClients } from '../freeze/network-for-clients.ts'
import { mayReadAll } from './alerts.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import { signer } from './signed-by.ts'
import { noSite } from './site-must-exist.ts'
import { sliceAnswer, sliceNames } from './slice-answer.ts'

interface FrozenDependencies extends Pick<Dependencies, 'store'> {
  /** Null: nothing is frozen on this server. */
  readonly freezing: Freezing | null
}

/** Data sets that stand still: made, listed, and read as the site is read, without anything that came later. */
export function frozenSetRoutes({ store, freezing }: FrozenDependencies): Hono {
  const routes = new Hono()
  const path = '/api/sites/:site/frozen'

  /** Answers with what is made of a set, or says why it is not there. */
  const ofSet = async (
    context: Context,
    answer: (freezing: Freezing, set: FrozenSet) => Promise<Response>,
  ): Promise<Response> => {
    const { site = '', set: id = '' } = context.req.param()
    const set = freezing ? await freezing.find(site, id) : null
    return freezing && set ? answer(freezing, set) : noSet(context, id)
  }

  routes.get(path, async (context) => {
    const site = context.req.param('site')
    if (!(await store.getSite(site))) return noSite(context)
    context.header('cache-control', 'no-store')
    const answer: FrozenSets = {
      sets: freezing ? await freezing.list(site) : [],
      running: freezing?.running(site) ?? null,
    }
    return context.json(answer)
  })

  routes.post(path, shortBody, async (context) => {
    const site = context.req.param('site')
    if (!(await store.getSite(site))) return noSite(context)
    const body = await readBody(context, freezeDraftSchema)
    if (!body.ok) return refuse(context, body.issues)
    if (!freezing)
      return problem(
        context,
        503,
        'Nothing is frozen here',
        'This server was started without a folder for frozen data.',
      )
    const { cutOffEpochMs, author } = body.value
    const frozen = await freezing.freeze(site, cutOffEpochMs, signer(context, author))
    return frozen.ok
      ? context.json(frozen.value.set, frozen.value.made ? 201 : 200)
      : refuse(context, frozen.issues)
  })

  routes.get(`${path}/:set`, (context) =>
    ofSet(context, async (_, set) => taggedJson(context, JSON.stringify(set), set.id)),
  )

  for (const name of frozenDocuments)
    routes.get(`${path}/:set/${name}`, (context) => ofSet(context, document(context, name)))

  routes.get(`${path}/:set/since`, (context) =>
    ofSet(context, async (freezing, set) => {
      context.header('cache-control', 'no-store')
      return context.json(await freezing.since(set, mayReadAll(context, set.site)))
    }),
  )

  routes.on(['GET', 'HEAD'], '/slices/:site/frozen/:name', async (context) => {
    const { site, name } = context.req.param()
    const file = freezing && sliceNames.test(name) ? await freezing.sliceFile(site, name) : null
    return file === null
      ? problem(context, 404, 'No such slice', 'No frozen data set of this site has this slice.')
      : sliceAnswer(context, file, name)
  })
  return routes
}

const document =
  (context: Context, name: FrozenDocument) =>
  async (freezing: Freezing, set: FrozenSet): Promise<Response> => {
    const part = set.parts.find((one) => one.name === name)
    if (!part)
      return problem(
        context,
        404,
        'Not in these frozen data',
        `The frozen data set "${set.id}" was made by a version that kept no ${name}.`,
      )
    const json = await freezing.document(set, name)
    if (name === 'network' && !mayReadAll(context, set.site)) {
      const whole = JSON.parse(Buffer.from(json).toString()) as NetworkDocument
      return taggedJson(context, JSON.stringify(networkForClients(whole)), `c${part.sha256}`)
    }
    return taggedJson(context, json, part.sha256)
  }

/**
 * It never changes under its address, and is asked for anew each time all the same: rights may have ended since, and the next
 * one at the same browser may be somebody else.
 */
function taggedJson(context: Context, json: string | Uint8Array, tag: string): Response {
  const etag = `"${tag.slice(0, 22)}"`
  context.header('etag', etag)
  context.header('cache-control', 'private, no-cache')
  if (context.req.header('if-none-match') === etag) return context.body(null, 304)
  const bytes = typeof json === 'string' ? json : Uint8Array.from(json)
  return context.body(bytes, 200, { 'content-type': 'application/json; charset=utf-8' })
}

const noSet = (context: Context, id: string): Response =>
  problem(
    context,
    404,
    'No such frozen data',
    `There is no frozen data set "${id}" at this site; its list is one path up.`,
  )

const refuse = (context: Context, issues: readonly Issue[]): Response =>
  problem(context, 400, 'Nothing frozen', 'Nothing was frozen; why not stands in issues.', issues)
