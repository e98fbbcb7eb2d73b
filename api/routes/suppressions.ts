import { type Context, Hono } from 'hono'
import type { z } from 'zod'
import { suppressionDraftSchema, suppressionEndDraftSchema } from '#contract/suppression-draft.ts'
import type { Issue, Outcome } from '#domain/outcome.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { nextSuppression, nextSuppressionEnd } from '#domain/suppression/draft-suppression.ts'
import type { Dependencies } from '../app.ts'
import type { TableRows } from '../store/store.ts'
import { addSignedRows } from './add-signed-rows.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import { noSite } from './site-must-exist.ts'

/** What is not sent for a while: a suppression added, or one ended early by another record. Nothing is ever edited. */
export function suppressionRoutes(dependencies: Pick<Dependencies, 'store' | 'now'>): Hono {
  const routes = new Hono()
  const path = '/api/sites/:site/suppressions'

  const add = async <D extends Signed, R>(
    context: Context,
    schema: z.ZodType<D>,
    judge: (model: SiteModel, draft: D, atEpochMs: number) => Outcome<R>,
    rows: (row: R) => TableRows,
  ): Promise<Response> => {
    const site = context.req.param('site') ?? ''
    if (!(await dependencies.store.getSite(site))) return noSite(context)
    const body = await readBody(context, schema)
    if (!body.ok) return refuse(context, body.issues)
    const made = await addSignedRows(context, dependencies, site, body.value, {
      judge,
      rows,
      reason: ({ reason }) => reason,
    })
    return made.ok ? context.json(made.value, 201) : refuse(context, made.issues)
  }

  routes.post(path, shortBody, (context) =>
    add(context, suppressionDraftSchema, nextSuppression, (row) => ({ suppressions: [row] })),
  )
  routes.post(`${path}/ends`, shortBody, (context) =>
    add(context, suppressionEndDraftSchema, nextSuppressionEnd, (row) => ({ suppressionEnds: [row] })),
  )
  return routes
}

interface Signed {
  readonly author: string
  readonly reason: string
}

const refuse = (context: Context, issues: readonly Issue[]) =>
  problem(
    context,
    400,
    'Suppression not understood',
    'Nothing was saved; what is wrong with it stands in issues.',
    issues,
  )
