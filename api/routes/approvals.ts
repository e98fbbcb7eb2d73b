import type { Context } from 'hono'
import { Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { approvalDraftSchema, approvalWithdrawalSchema } from '#contract/approval-draft.ts'
import { nextApprovals, nextApprovalWithdrawal } from '#domain/approval/draft-approval.ts'
import type { Issue } from '#domain/outcome.ts'
import { folderAuthor } from '#domain/site/folder-author.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import { readRecipe } from '../slices/recipe.ts'
import { recipeOfInstrument } from '../slices/recipe-of-instrument.ts'
import { VersionConflict } from '../store/version-conflict.ts'
import { problem } from './problem.ts'
import { readBody } from './read-body.ts'
import { signed, signerAccount } from './signed-by.ts'
import { siteMustExist } from './site-must-exist.ts'

const mostAttempts = 5

/** Readings that somebody stands for, and what was taken back of that; both are records that are only added to. */
export function approvalRoutes(dependencies: Dependencies): Hono {
  const { store, publisher, now } = dependencies
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
    const draft = signed(context, read.value)
    if (draft.author.trim() === folderAuthor) return refuse(context, [reserved])
    for (let attempt = 1; ; attempt++) {
      const model = (await store.getSite(site)) as SiteModel
      const recipe = await readRecipe(store, site, model)
      const at = model.facts.presentEpochMs ?? now()
      const rows = nextApprovals(model, draft, at, recipeOfInstrument(model, recipe))
      if (!rows.ok) return refuse(context, rows.issues)
      try {
        await store.addRows(
          site,
          { approvals: rows.value },
          {
            author: draft.author.trim(),
            account: signerAccount(context),
            reason: draft.statement.trim(),
            atEpochMs: now(),
          },
        )
      } catch (failure) {
        if (failure instanceof VersionConflict && attempt < mostAttempts) continue
        throw failure
      }
      publisher.changed(site)
      return context.json({ approvals: rows.value }, 201)
    }
  })

  routes.post(`${path}/withdrawals`, bounded, async (context) => {
    const site = context.req.param('site') ?? ''
    const read = await readBody(context, approvalWithdrawalSchema)
    if (!read.ok) return refuse(context, read.issues)
    const draft = signed(context, read.value)
    if (draft.author.trim() === folderAuthor) return refuse(context, [reserved])
    const model = (await store.getSite(site)) as SiteModel
    const row = nextApprovalWithdrawal(model, draft, model.facts.presentEpochMs ?? now())
    if (!row.ok) return refuse(context, row.issues)
    const { author, reason } = row.value
    try {
      await store.addRows(
        site,
        { approvalWithdrawals: [row.value] },
        {
          author,
          account: signerAccount(context),
          reason,
          atEpochMs: now(),
        },
      )
    } catch (failure) {
      if (!(failure instanceof VersionConflict)) throw failure
      return problem(context, 409, 'Taken back meanwhile', `Somebody else took ${row.value.approval} back.`)
    }
    publisher.changed(site)
    return context.json(row.value, 201)
  })
  return routes
}

// By that name the store knows what a folder brought, and the next load of the folder would take it away again.
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
    'Approval not understood',
    'Nothing was saved; what is wrong with it stands in issues.',
    issues,
  )
