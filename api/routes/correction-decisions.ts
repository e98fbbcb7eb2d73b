import { type Context, Hono, type MiddlewareHandler } from 'hono'
import { correctionDecisionSchema } from '#contract/correction-proposals.ts'
import { correctedModel } from '#domain/corrections/corrected-model.ts'
import {
  type CorrectionDecision,
  isProposer,
  reasonOfRecord,
  type StoredCorrection,
} from '#domain/corrections/correction-proposal.ts'
import { isAnotherPerson } from '#domain/levels/level-proposal.ts'
import type { Issue } from '#domain/outcome.ts'
import type { Dependencies } from '../app.ts'
import { ProposalDecided } from '../store/level-proposals.ts'
import { refuseCorrection, unsignedCorrection } from './correction-refusals.ts'
import { problem } from './problem.ts'
import { readBody } from './read-body.ts'
import { signerAccount, signerName } from './signed-by.ts'

const path = '/api/sites/:site/correction-proposals'

/** A second person approves or turns down a correction; its proposer may take it back. What is approved holds at once. */
export function correctionDecisionRoutes(
  { store, publisher, now }: Pick<Dependencies, 'store' | 'publisher' | 'now'>,
  bounded: MiddlewareHandler,
): Hono {
  const routes = new Hono()

  /** Judges who decides what; answers with a problem, or with the proposal and the decision to record. */
  const readDecision = async (
    context: Context,
    kind: CorrectionDecision['kind'],
  ): Promise<Response | { proposal: StoredCorrection; decision: CorrectionDecision }> => {
    const body = await readBody(context, correctionDecisionSchema)
    if (!body.ok) return refuseCorrection(context, body.issues)
    const number = Number(context.req.param('proposal'))
    const proposal = (await store.listCorrectionProposals(context.req.param('site') ?? '')).find(
      (one) => one.number === number,
    )
    if (!proposal)
      return problem(
        context,
        404,
        'No such proposal',
        'Look at the list of proposals again; this site has none of that number.',
      )
    const [name, account] = [signerName(context, body.value.author).trim(), signerAccount(context)]
    const reason = body.value.reason.trim()
    const unsigned = unsignedCorrection(name, reason)
    if (unsigned.length > 0) return refuseCorrection(context, unsigned)
    if (kind === 'withdrawn' && !isProposer(proposal, { name, account }))
      return problem(
        context,
        403,
        'Taken back by its proposer alone',
        `${proposal.author} proposed this. A second person turns it down, or approves it.`,
      )
    if (kind !== 'withdrawn' && !isAnotherPerson(proposal, { name, account }))
      return problem(
        context,
        403,
        'A second person decides',
        `${proposal.author} proposed this and cannot decide it. Ask somebody else who may approve readings.`,
      )
    if (proposal.decision) return decided(context)
    return { proposal, decision: { kind, by: name, account, reason, atEpochMs: now() } }
  }

  routes.post(`${path}/:proposal/approval`, bounded, async (context) => {
    const read = await readDecision(context, 'approved')
    if (read instanceof Response) return read
    const { proposal, decision } = read
    const site = context.req.param('site')
    const reason = reasonOfRecord(proposal, decision)
    try {
      await store.approveCorrectionProposal(
        site,
        proposal.number,
        decision,
        (latest) => {
          const corrected = correctedModel(latest, proposal.changes, { author: proposal.author, reason })
          if (!corrected.ok) throw new CorrectionRefused(corrected.issues)
          return corrected.value
        },
        { author: decision.by, account: decision.account, reason, atEpochMs: decision.atEpochMs },
      )
    } catch (failure) {
      if (failure instanceof ProposalDecided) return decided(context)
      if (!(failure instanceof CorrectionRefused)) throw failure
      return problem(
        context,
        409,
        'Records changed meanwhile',
        'Nothing was changed: the records are not as they were when this was proposed, or no longer go together with it. What is wrong stands in issues; turn the proposal down and try it anew on what is recorded now.',
        failure.issues,
      )
    }
    publisher.changed(site)
    return context.json({ number: proposal.number, decision })
  })

  for (const [part, kind] of [
    ['rejection', 'rejected'],
    ['withdrawal', 'withdrawn'],
  ] as const)
    routes.post(`${path}/:proposal/${part}`, bounded, async (context) => {
      const read = await readDecision(context, kind)
      if (read instanceof Response) return read
      const { proposal, decision } = read
      try {
        await store.closeCorrectionProposal(context.req.param('site') ?? '', proposal.number, decision)
      } catch (failure) {
        if (failure instanceof ProposalDecided) return decided(context)
        throw failure
      }
      return context.json({ number: proposal.number, decision })
    })

  return routes
}

class CorrectionRefused extends Error {
  readonly issues: readonly Issue[]
  constructor(issues: readonly Issue[]) {
    super(issues.map(({ message }) => message).join(' '))
    this.issues = issues
  }
}

const decided = (context: Context) =>
  problem(
    context,
    409,
    'Decided already',
    'Somebody decided this proposal meanwhile, or it was taken back. Look at the list again; propose anew where something is to change.',
  )
