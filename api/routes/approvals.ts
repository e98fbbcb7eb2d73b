import type { Context } from 'hono'
import { Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { approvalDraftSchema, approvalWithdrawalSchema } from '#contract/approval-draft.ts'
import { nextApprovals, nextApprovalWithdrawal } from '#domain/approval/draft-approval.ts'
import type { Issue } from '#domain/outcome.ts'
import type { Dependencies } from '../app.ts'
import { readRecipe } from '../slices/recipe.ts'
import { recipeOfInstrument } from '../slices/recipe-of-instrument.ts'
import { addSignedRows } from './add-signed-rows.ts'
import { problem } from './problem.ts'
import { readBody } from './read-body.ts'
import { siteMustExist } from './site-must-exist.ts'

/** Readings that somebody stands for, and what was taken back of that; both are records that are only added to. */
export function approvalRoutes(dependencies: Dependencies): Hono {
  const { store, publisher } = dependencies
  const routes = new Hono()
  const path = '/api/sites/:site/approvals'
  const bounded = bodyLimit({
    maxSize: 512 * 1024,
    onError: (context) =>
      problem(context, 413, 'Too much at once', 'At most 512 KiB are taken here. Nothing was approved.'),
  })
  routes.use(`${path}/*`, siteMustExist(dependencies))

  routes.post(path, bounded, async (context) => {
    const site = context.req.param('site') ?? ''
    const read = await readBody(context, approvalDraftSchema)
    if (!read.ok) return refuse(context, read.issues)
    const made = await addSignedRows(context, dependencies, site, read.value, {
      judge: async (model, draft, atEpochMs) => {
        const recipe = await readRecipe(store, site, model)
        return nextApprovals(model, draft, atEpochMs, recipeOfInstrument(model, recipe))
      },
      rows: (approvals) => ({ approvals }),
      reason: ({ statement }) => statement,
    })
    if (!made.ok) return refuse(context, made.issues)
    publisher.changed(site)
    return context.json({ approvals: made.value }, 201)
  })

  routes.post(`${path}/withdrawals`, bounded, async (context) => {
    const site = context.req.param('site') ?? ''
    const read = await readBody(context, approvalWithdrawalSchema)
    if (!read.ok) return refuse(context, read.issues)
    const made = await addSignedRows(context, dependencies, site, read.value, {
      judge: nextApprovalWithdrawal,
      rows: (row) => ({ approvalWithdrawals: [row] }),
      reason: ({ reason }) => reason,
    })
    if (!made.ok) return refuse(context, made.issues)
    publisher.changed(site)
    return context.json(made.value, 201)
  })
  return routes
}

const refuse = (context: Context, issues: readonly Issue[]) =>
  problem(
    context,
    400,
    'Approval not understood',
    'Nothing was saved; what is wrong with it stands in issues.',
    issues,
  )
