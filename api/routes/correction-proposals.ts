import type { Hono } from 'hono'
import {
  type CorrectionProposals,
  type CorrectionTaken,
  correctionDraftSchema,
  type ListedCorrection,
} from '#contract/correction-proposals.ts'
import { correctedModel } from '#domain/corrections/corrected-model.ts'
import { overlappingProposals } from '#domain/corrections/correction-proposal.ts'
import { resolveCorrections } from '#domain/corrections/resolve-corrections.ts'
import { staleCorrections } from '#domain/corrections/stale-corrections.ts'
import { reasonOfRecord } from '#domain/proposals/proposal.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import { clockOrderIssues } from '../slices/clock-order.ts'
import { correctionEvidence } from '../slices/correction-effect.ts'
import { rereadZeros } from '../slices/reread-zeros.ts'
import { correctedWithZeros } from '../slices/take-zero-readings.ts'
import { type DecidedKind, decidedProposalRoutes, proposalsPath } from './decide-proposal.ts'
import { refuseProposal, signatureOf, whoAsks } from './proposal-signature.ts'
import { readBody } from './read-body.ts'

const path = proposalsPath('correction')

/** Corrections that were found in a sandbox: offered by one person, decided by another. */
export function correctionProposalRoutes(
  dependencies: Pick<Dependencies, 'store' | 'publisher' | 'now'>,
): Hono {
  const { store, now } = dependencies
  const routes = decidedProposalRoutes(dependencies, corrections)

  routes.get(path, async (context) => {
    const site = context.req.param('site')
    const model = (await store.getSite(site)) as SiteModel
    const stored = await store.listProposals(site, 'correction')
    const list: CorrectionProposals = {
      proposals: stored.map((one): ListedCorrection => {
        if (one.decision) return { ...one, overlaps: [], stale: [] }
        const others = stored.filter(({ number }) => number !== one.number)
        return {
          ...one,
          overlaps: overlappingProposals(one.changes, others),
          stale: staleCorrections(model, one.changes).map(({ message }) => message),
        }
      }),
      ...whoAsks(context, 'approve-readings'),
    }
    context.header('cache-control', 'no-cache')
    return context.json(list)
  })

  routes.post(path, async (context) => {
    const body = await readBody(context, correctionDraftSchema)
    if (!body.ok) return refuseProposal(context, corrections.words, body.issues)
    const site = context.req.param('site')
    const model = (await store.getSite(site)) as SiteModel
    const signature = signatureOf(context, body.value, corrections.words)
    if (signature instanceof Response) return signature
    const { name: author, account, reason } = signature
    const resolved = resolveCorrections(model, body.value.changes)
    if (!resolved.ok) return refuseProposal(context, corrections.words, resolved.issues)
    const corrected = await correctedWithZeros({
      store,
      site,
      model,
      changes: resolved.value,
      signature: { author, reason },
    })
    if (!corrected.ok) return refuseProposal(context, corrections.words, corrected.issues)
    const { changes, after } = corrected.value
    const reordered = await clockOrderIssues({ store, site, before: model, after, changes })
    if (reordered.length > 0) return refuseProposal(context, corrections.words, reordered)
    const effect = await correctionEvidence({
      store,
      site,
      before: model,
      after,
      changes,
      signal: context.req.raw.signal,
    })
    const evidence = { sandbox: body.value.sandbox, ...effect }
    const overlaps = overlappingProposals(changes, await store.listProposals(site, 'correction'))
    const number = await store.addProposal(site, 'correction', {
      author,
      account,
      reason,
      atEpochMs: now(),
      changes,
      evidence,
    })
    const taken: CorrectionTaken = { number, evidence, overlaps }
    return context.json(taken, 201)
  })

  return routes
}

const corrections: DecidedKind<'correction'> = {
  kind: 'correction',
  mayBeWithdrawn: true,
  mostBytes: 512 * 1024,
  tooLarge: ['Too much at once', 'A proposal has at most 100 changes in 512 KiB. Nothing was kept.'],
  enact: (model, proposal, decision) =>
    correctedModel(model, proposal.changes, {
      author: proposal.author,
      reason: reasonOfRecord(proposal, decision),
    }),
  readAgain: rereadZeros,
  words: {
    notTaken: 'Correction not taken',
    signing: 'corrects a record',
    records: 'records',
    approves: 'readings',
    instead: 'turn the proposal down and try it anew on what is recorded now',
  },
}
