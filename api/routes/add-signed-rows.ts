import type { Context } from 'hono'
import { accept, type Outcome, reject } from '#domain/outcome.ts'
import { reservedAuthor } from '#domain/site/reserved-author.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Store, TableRows } from '../store/store.ts'
import { VersionConflict } from '../store/version-conflict.ts'
import { signed, signerAccount } from './signed-by.ts'

const mostAttempts = 5

/**
 * Judges what somebody sent against the records as they stand, adds what follows from it in the signer's name, and gives
 * it back. Where another save came between it is judged anew, so that two that are saved at once get names of their own.
 */
export async function addSignedRows<D extends { readonly author: string }, R>(
  context: Context,
  { store, now }: { readonly store: Store; readonly now: () => number },
  site: string,
  sent: D,
  adds: {
    /** `atEpochMs`: the present of the site; invented data has one of its own, in which its other records were made. */
    readonly judge: (model: SiteModel, draft: D, atEpochMs: number) => Outcome<R> | Promise<Outcome<R>>
    readonly rows: (made: R) => TableRows
    readonly reason: (draft: D) => string
  },
): Promise<Outcome<R>> {
  const draft = signed(context, sent)
  const author = draft.author.trim()
  const reserved = reservedAuthor(author)
  if (reserved.length > 0) return reject(...reserved)
  for (let attempt = 1; ; attempt++) {
    const model = (await store.getSite(site)) as SiteModel
    const made = await adds.judge(model, draft, model.facts.presentEpochMs ?? now())
    if (!made.ok) return made
    try {
      await store.addRows(site, adds.rows(made.value), {
        author,
        account: signerAccount(context),
        reason: adds.reason(draft).trim(),
        atEpochMs: now(),
      })
      return accept(made.value)
    } catch (failure) {
      if (!(failure instanceof VersionConflict) || attempt >= mostAttempts) throw failure
    }
  }
}
