import { type Context, Hono, type MiddlewareHandler } from 'hono'
import { decisionDraftSchema } from '#contract/level-proposals.ts'
import { isAnotherPerson, type LevelDecision, type StoredProposal } from '#domain/levels/level-proposal.ts'
import type { Issue } from '#domain/outcome.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import { approvedLevels } from '../levels/judge-proposal.ts'
import { ProposalDecided } from '../store/level-proposals.ts'
import { refuseLevels, unsignedIssues } from './level-refusals.ts'
import { problem } from './problem.ts'
import { readBody } from './read-body.ts'
import { signerName } from './signed-by.ts'

const path = '/api/sites/:site/level-proposals'

/** A second person approves or rejects what was proposed for levels; what is approved holds at once. */
export function levelDecisionRoutes(
  { store, publisher, now }: Pick<Dependencies, 'store' | 'publisher' | 'now'>,
  bounded: MiddlewareHandler,
): Hono {
  const routes = new Hono()

  /** Judges who decides what; answers with a problem, or with the proposal and the decision to record. */
  const readDecision = async (
    context: Context,
    kind: LevelDecision['kind'],
  ): Promise<Response | { proposal: StoredProposal; decision: LevelDecision }> => {
    const body = await readBody(context, decisionDraftSchema)
    if (!body.ok) return refuseLevels(context, body.issues)
    const number = Number(context.req.param('proposal'))
    const proposal = (await store.listLevelProposals(context.req.param('site') ?? '')).find(
      (one) => one.number === number,
    )
    if (!proposal)
      return problem(
        context,
        404,
        'No such proposal',
        'Look at the list of proposals again; this site has none of that number.',
      )
    const account = context.get('caller')?.account
    const name = signerName(context, body.value.author).trim()
    const reason = body.value.reason.trim()
    const unsigned = unsignedIssues(name, reason)
    if (unsigned.length > 0) return refuseLevels(context, unsigned)
    if (!isAnotherPerson(proposal, { name, account: account?.id ?? null }))
      return problem(
        context,
        403,
        'A second person decides',
        `${proposal.author} proposed this and cannot decide it. Ask somebody else who may approve levels.`,
      )
    if (proposal.decision) return decided(context)
    return {
      proposal,
      decision: { kind, by: name, account: account?.id ?? null, reason, atEpochMs: now() },
    }
  }

  routes.post(`${path}/:proposal/approval`, bounded, async (context) => {
    const read = await readDecision(context, 'approved')
    if (read instanceof Response) return read
    const { proposal, decision } = read
    const site = context.req.param('site')
    const { facts } = (await store.getSite(site)) as SiteModel
    try {
      await store.approveLevelProposal(
        site,
        proposal.number,
        decision,
        (latest) => {
          const levels = approvedLevels(latest, proposal.changes, {
            author: proposal.author,
            approver: decision.by,
            // Invented data has a present of its own.
            atEpochMs: facts.presentEpochMs ?? now(),
          })
          if (!levels.ok) throw new LevelsRefused(levels.issues)
          return { ...latest, triggerLevels: levels.value }
        },
        {
          author: decision.by,
          account: decision.account,
          reason: `${proposal.reason} (proposed by ${proposal.author}, approved by ${decision.by}: ${decision.reason})`,
          atEpochMs: decision.atEpochMs,
        },
      )
    } catch (failure) {
      if (failure instanceof ProposalDecided) return decided(context)
      if (!(failure instanceof LevelsRefused)) throw failure
      return problem(
        context,
        409,
        'Levels changed meanwhile',
        'Nothing was changed: the levels are not as they were when this was proposed, or no longer go together with it. What is wrong stands in issues; reject the proposal and propose anew.',
        failure.issues,
      )
    }
    publisher.changed(site)
    return context.json({ number: proposal.number, decision })
  })

  routes.post(`${path}/:proposal/rejection`, bounded, async (context) => {
    const read = await readDecision(context, 'rejected')
    if (read instanceof Response) return read
    const { proposal, decision } = read
    try {
      await store.rejectLevelProposal(context.req.param('site'), proposal.number, decision)
    } catch (failure) {
      if (failure instanceof ProposalDecided) return decided(context)
      throw failure
    }
    return context.json({ number: proposal.number, decision })
  })

  return routes
}

class LevelsRefused extends Error {
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
    'Somebody decided this proposal meanwhile. Look at the list again; propose anew where something is to change.',
  )
