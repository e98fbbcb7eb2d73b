import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import type { z } from 'zod'
import {
  verdictDraftSchema,
  verdictReviewDraftSchema,
  withdrawalDraftSchema,
} from '#contract/verdict-draft.ts'
import { accept, type Issue, type Outcome } from '#domain/outcome.ts'
import { nextVerdict, nextWithdrawal, type VerdictDraft } from '#domain/site/draft-verdict.ts'
import { nextVerdictReview } from '#domain/site/draft-verdict-review.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { evidenceRows } from '#domain/site/verdict-evidence.ts'
import type { Dependencies } from '../app.ts'
import type { TableRows } from '../store/store.ts'
import { addSignedRows } from './add-signed-rows.ts'
import { problem } from './problem.ts'
import { readBody } from './read-body.ts'
import { siteMustExist } from './site-must-exist.ts'

const largestDraftBytes = 128 * 1024

/** What a person found about readings: a verdict added, or one taken back by another record. Nothing is ever edited. */
export function verdictRoutes(dependencies: Dependencies): Hono {
  const routes = new Hono()
  const bounded = bodyLimit({
    maxSize: largestDraftBytes,
    onError: (context) =>
      problem(
        context,
        413,
        'Verdict too large',
        'Reason and alternatives have at most 1000 characters each, and the evidence at most 100 lines. Shorten them, and name where the rest can be read.',
      ),
  })
  const path = '/api/sites/:site/verdicts'

  routes.use(`${path}/*`, siteMustExist(dependencies))

  /** Judges what was sent, adds it, and answers with it. */
  const add = async <D extends Signed, R, A>(
    context: Context,
    schema: z.ZodType<D>,
    judge: (model: SiteModel, draft: D, atEpochMs: number) => Outcome<R>,
    rows: (made: R) => TableRows,
    answer: (made: R) => A,
  ): Promise<Response> => {
    const site = context.req.param('site') ?? ''
    const body = await readBody(context, schema)
    if (!body.ok) return refuse(context, body.issues)
    const made = await addSignedRows(context, dependencies, site, body.value, {
      judge,
      rows,
      reason: ({ reason }) => reason,
    })
    if (!made.ok) return refuse(context, made.issues)
    dependencies.publisher.changed(site)
    return context.json(answer(made.value), 201)
  }

  routes.post(path, bounded, (context) =>
    add(
      context,
      verdictDraftSchema,
      (model, draft: VerdictDraft, atEpochMs) => {
        const row = nextVerdict(model, draft, atEpochMs)
        if (!row.ok) return row
        return accept({
          row: row.value,
          evidence: draft.evidence ? evidenceRows(row.value.id, draft.evidence) : [],
        })
      },
      ({ row, evidence }) => ({ verdicts: [row], verdictEvidence: evidence }),
      ({ row }) => row,
    ),
  )
  routes.post(`${path}/withdrawals`, bounded, (context) =>
    add(
      context,
      withdrawalDraftSchema,
      nextWithdrawal,
      (row) => ({ verdictWithdrawals: [row] }),
      (row) => row,
    ),
  )
  routes.post(`${path}/reviews`, bounded, (context) =>
    add(
      context,
      verdictReviewDraftSchema,
      nextVerdictReview,
      (row) => ({ verdictReviews: [row] }),
      (row) => row,
    ),
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
    'Verdict not understood',
    'Nothing was saved; what is wrong with it stands in issues.',
    issues,
  )
