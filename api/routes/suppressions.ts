import { type Context, Hono } from 'hono'
import type { z } from 'zod'
import { suppressionDraftSchema, suppressionEndDraftSchema } from '#contract/suppression-draft.ts'
import type { Issue, Outcome } from '#domain/outcome.ts'
import { folderAuthor } from '#domain/site/folder-author.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { nextSuppression, nextSuppressionEnd } from '#domain/suppression/draft-suppression.ts'
import type { Dependencies } from '../app.ts'
import type { TableRows } from '../store/store.ts'
import { VersionConflict } from '../store/version-conflict.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import { signed, signerAccount } from './signed-by.ts'
import { noSite } from './site-must-exist.ts'

const mostAttempts = 5

/** What is not sent for a while: a suppression added, or one ended early by another record. Nothing is ever edited. */
export function suppressionRoutes({ store, now }: Pick<Dependencies, 'store' | 'now'>): Hono {
  const routes = new Hono()
  const path = '/api/sites/:site/suppressions'

  const add = async <D extends { readonly author: string }, R extends { author: string; reason: string }>(
    context: Context,
    schema: z.ZodType<D>,
    next: (model: SiteModel, draft: D, atEpochMs: number) => Outcome<R>,
    rows: (row: R) => TableRows,
  ): Promise<Response> => {
    const site = context.req.param('site') ?? ''
    if (!(await store.getSite(site))) return noSite(context)
    const body = await readBody(context, schema)
    if (!body.ok) return refuse(context, body.issues)
    const draft = signed(context, body.value)
    if (draft.author.trim() === folderAuthor) return refuse(context, [reserved])
    for (let attempt = 1; ; attempt++) {
      const model = (await store.getSite(site)) as SiteModel
      const row = next(model, draft, model.facts.presentEpochMs ?? now())
      if (!row.ok) return refuse(context, row.issues)
      const { author, reason } = row.value
      try {
        await store.addRows(site, rows(row.value), {
          author,
          account: signerAccount(context),
          reason,
          atEpochMs: now(),
        })
        return context.json(row.value, 201)
      } catch (failure) {
        if (!(failure instanceof VersionConflict) || attempt >= mostAttempts) throw failure
      }
    }
  }

  routes.post(path, shortBody, (context) =>
    add(context, suppressionDraftSchema, nextSuppression, (row) => ({ suppressions: [row] })),
  )
  routes.post(`${path}/ends`, shortBody, (context) =>
    add(context, suppressionEndDraftSchema, nextSuppressionEnd, (row) => ({ suppressionEnds: [row] })),
  )
  return routes
}

// By that name the store knows what a folder brought and may take away again.
const reserved: Issue = {
  code: 'author-reserved',
  column: 'author',
  value: folderAuthor,
  message: `"${folderAuthor}" stands for records that came with the site's folder. Write your own name.`,
}

const refuse = (context: Context, issues: readonly Issue[]) =>
  problem(
    context,
    400,
    'Suppression not understood',
    'Nothing was saved; what is wrong with it stands in issues.',
    issues,
  )
