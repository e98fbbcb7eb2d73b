import { Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import {
  type CorrectionProposals,
  type CorrectionTaken,
  correctionDraftSchema,
  type ListedCorrection,
} from '#contract/correction-proposals.ts'
import { mayAt } from '#domain/access/membership.ts'
import { overlappingProposals } from '#domain/corrections/correction-proposal.ts'
import { resolveCorrections, staleFault } from '#domain/corrections/resolve-corrections.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import { correctionEvidence } from '../slices/correction-effect.ts'
import { correctedWithZeros } from '../slices/take-zero-readings.ts'
import { correctionDecisionRoutes } from './correction-decisions.ts'
import { refuseCorrection, unsignedCorrection } from './correction-refusals.ts'
import { problem } from './problem.ts'
import { readBody } from './read-body.ts'
import { signerAccount, signerName } from './signed-by.ts'
import { siteMustExist } from './site-must-exist.ts'

const path = '/api/sites/:site/correction-proposals'

/** Corrections that were found in a sandbox: offered by one person, decided by another. */
export function correctionProposalRoutes(
  dependencies: Pick<Dependencies, 'store' | 'publisher' | 'now'>,
): Hono {
  const { store, now } = dependencies
  const routes = new Hono()
  const bounded = bodyLimit({
    maxSize: 512 * 1024,
    onError: (context) =>
      problem(
        context,
        413,
        'Too much at once',
        'A proposal has at most 100 changes in 512 KiB. Nothing was kept.',
      ),
  })
  routes.use(path, siteMustExist(dependencies))
  routes.use(`${path}/*`, siteMustExist(dependencies))

  routes.get(path, async (context) => {
    const site = context.req.param('site')
    const model = (await store.getSite(site)) as SiteModel
    const account = context.get('caller')?.account
    const stored = await store.listCorrectionProposals(site)
    const list: CorrectionProposals = {
      proposals: stored.map((one): ListedCorrection => {
        if (one.decision) return { ...one, overlaps: [], stale: [] }
        const others = stored.filter(({ number }) => number !== one.number)
        return {
          ...one,
          overlaps: overlappingProposals(one.changes, others),
          stale: one.changes.flatMap((change) => staleFault(model, change)?.message ?? []),
        }
      }),
      namesAreProven: account !== undefined,
      mayDecide: account === undefined || mayAt(account.memberships, site, 'approve-readings'),
      signedInAs: account?.name ?? null,
      account: account?.id ?? null,
    }
    context.header('cache-control', 'no-cache')
    return context.json(list)
  })

  routes.post(path, bounded, async (context) => {
    const body = await readBody(context, correctionDraftSchema)
    if (!body.ok) return refuseCorrection(context, body.issues)
    const site = context.req.param('site')
    const model = (await store.getSite(site)) as SiteModel
    const author = signerName(context, body.value.author).trim()
    const reason = body.value.reason.trim()
    const unsigned = unsignedCorrection(author, reason)
    if (unsigned.length > 0) return refuseCorrection(context, unsigned)
    const resolved = resolveCorrections(model, body.value.changes)
    if (!resolved.ok) return refuseCorrection(context, resolved.issues)
    const corrected = await correctedWithZeros({
      store,
      site,
      model,
      changes: resolved.value,
      signature: { author, reason },
    })
    if (!corrected.ok) return refuseCorrection(context, corrected.issues)
    const { changes, after } = corrected.value
    const effect = await correctionEvidence({
      store,
      site,
      before: model,
      after,
      changes,
      signal: context.req.raw.signal,
    })
    const evidence = { sandbox: body.value.sandbox, ...effect }
    const overlaps = overlappingProposals(changes, await store.listCorrectionProposals(site))
    const number = await store.addCorrectionProposal(site, {
      author,
      account: signerAccount(context),
      reason,
      atEpochMs: now(),
      changes,
      evidence,
    })
    const taken: CorrectionTaken = { number, evidence, overlaps }
    return context.json(taken, 201)
  })

  routes.route('/', correctionDecisionRoutes(dependencies, bounded))
  return routes
}
