import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import type { z } from 'zod'
import { verdictDraftSchema, withdrawalDraftSchema } from '#contract/verdict-draft.ts'
import { type Outcome, reject } from '#domain/outcome.ts'
import { nextVerdict, nextWithdrawal } from '#domain/site/draft-verdict.ts'
import { folderAuthor } from '#domain/site/folder-author.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import type { TableRows } from '../store/store.ts'
import { VersionConflict } from '../store/version-conflict.ts'
import { problem } from './problem.ts'
import { signed, signerAccount } from './signed-by.ts'
import { siteMustExist } from './site-must-exist.ts'

const largestDraftBytes = 16 * 1024

/** What a person found about readings: a verdict added, or one taken back by another record. Nothing is ever edited. */
export function verdictRoutes(dependencies: Dependencies): Hono {
  const { store, publisher, now } = dependencies
  const routes = new Hono()
  const bounded = bodyLimit({
    maxSize: largestDraftBytes,
    onError: (context) =>
      problem(
        context,
        413,
        'Verdict too large',
        'Reason and alternatives have at most 1000 characters each. Shorten them, and name where the rest can be read.',
      ),
  })
  const path = '/api/sites/:site/verdicts'

  routes.use(`${path}/*`, siteMustExist(dependencies))

  /** Judges what was sent, adds it, and answers with it. Two that are saved at once get names of their own. */
  const add = async <D extends { readonly author: string }, R extends Signed>(
    context: Context,
    schema: z.ZodType<D>,
    next: (model: SiteModel, draft: D, atEpochMs: number) => Outcome<R>,
    rows: (row: R) => TableRows,
  ): Promise<Response> => {
    const site = context.req.param('site') ?? ''
    const draft = await readDraft(context, schema)
    if (!draft.ok) return refuse(context, draft)
    for (let attempt = 1; ; attempt++) {
      const model = (await store.getSite(site)) as SiteModel
      // Invented data has a present of its own, in which its other verdicts were found.
      const row = next(model, draft.value, model.facts.presentEpochMs ?? now())
      if (!row.ok) return refuse(context, row)
      const { author, reason } = row.value
      try {
        await store.addRows(site, rows(row.value), {
          author,
          account: signerAccount(context),
          reason,
          atEpochMs: now(),
        })
      } catch (failure) {
        if (failure instanceof VersionConflict && attempt < mostAttempts) continue
        throw failure
      }
      publisher.changed(site)
      return context.json(row.value, 201)
    }
  }

  routes.post(path, bounded, (context) =>
    add(context, verdictDraftSchema, nextVerdict, (row) => ({ verdicts: [row] })),
  )
  routes.post(`${path}/withdrawals`, bounded, (context) =>
    add(context, withdrawalDraftSchema, nextWithdrawal, (row) => ({ verdictWithdrawals: [row] })),
  )
  return routes
}

interface Signed {
  readonly author: string
  readonly reason: string
}

const mostAttempts = 5

async function readDraft<D extends { readonly author: string }>(
  context: Context,
  schema: z.ZodType<D>,
): Promise<Outcome<D>> {
  const parsed = schema.safeParse(await context.req.json().catch(() => null))
  if (!parsed.success)
    return reject(
      ...parsed.error.issues.map(({ path, message }) => ({
        code: 'draft-unreadable',
        column: path.join('.'),
        message: `${path.join('.') || 'The verdict'}: ${message}.`,
      })),
    )
  // By that name the store knows what a folder brought and may take away again.
  if (parsed.data.author.trim() === folderAuthor)
    return reject({
      code: 'author-reserved',
      column: 'author',
      value: parsed.data.author,
      message: `"${folderAuthor}" stands for records that came with the site's folder. Write your own name.`,
    })
  return { ok: true, value: signed(context, parsed.data) }
}

const refuse = (context: Context, { issues }: Extract<Outcome<never>, { ok: false }>) =>
  problem(
    context,
    400,
    'Verdict not understood',
    'Nothing was saved; what is wrong with it stands in issues.',
    issues,
  )
