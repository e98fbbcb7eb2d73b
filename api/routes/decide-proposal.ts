import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { type DecisionPart, decisionDraftSchema, decisionParts } from '#contract/proposals.ts'
import { type Decision, hindranceToDecide, type Kept } from '#domain/proposals/proposal.ts'
import type { ProposalKind, ProposalsByKind } from '#domain/proposals/proposal-kinds.ts'
import type { Dependencies } from '../app.ts'
import { ProposalDecided } from '../store/decided-proposals.ts'
import { RevisionPassed } from '../store/revision-passed.ts'
import { type Approving, approveProposal, ProposalOvertaken } from './approve-proposal.ts'
import { problem } from './problem.ts'
import { type ProposalWords, refuseProposal, signatureOf } from './proposal-signature.ts'
import { readBody } from './read-body.ts'
import { siteMustExist } from './site-must-exist.ts'

/** How proposals of one kind are decided. Every part of an address has a rule in `route-rules.ts`. */
export interface DecidedKind<K extends ProposalKind> extends Approving<K> {
  /** Whether whoever proposed may take it back. */
  readonly mayBeWithdrawn: boolean
  /** Of a proposal, and title and detail of the refusal of a larger one. */
  readonly mostBytes: number
  readonly tooLarge: readonly [title: string, detail: string]
  readonly words: ProposalWords & {
    /** What is changed, and what must be as it was when it was proposed. */
    readonly records: string
    /** `Ask somebody else who may approve …`. */
    readonly approves: string
    /** What to do where the records changed since. */
    readonly instead: string
  }
}

/** Address of the proposals of a kind, under which each is decided. */
export const proposalsPath = <K extends ProposalKind>(kind: K) =>
  `/api/sites/:site/${kind}-proposals` as const

/**
 * Routes of proposals of one kind, to which it adds how they are listed and made. A second person approves or turns down
 * what was proposed; its proposer may take it back. What is approved holds at once.
 */
export function decidedProposalRoutes<K extends ProposalKind>(
  dependencies: Pick<Dependencies, 'store' | 'publisher' | 'now'>,
  decidedKind: DecidedKind<K>,
): Hono {
  const { kind, mayBeWithdrawn, mostBytes, tooLarge, words } = decidedKind
  const { store, publisher, now } = dependencies
  const routes = new Hono()
  const path = proposalsPath(kind)
  const bounded = bodyLimit({
    maxSize: mostBytes,
    onError: (context) => problem(context, 413, ...tooLarge),
  })
  for (const each of [path, `${path}/*`]) routes.use(each, siteMustExist(dependencies), bounded)

  /** Judges who decides what; answers with a problem, or with the proposal and the decision to record. */
  const readDecision = async (
    context: Context,
    part: DecisionPart,
  ): Promise<Response | { proposal: Kept<ProposalsByKind[K]>; decision: Decision }> => {
    const body = await readBody(context, decisionDraftSchema)
    if (!body.ok) return refuseProposal(context, words, body.issues)
    const number = Number(context.req.param('proposal'))
    const proposal = (await store.listProposals(context.req.param('site') ?? '', kind)).find(
      (one) => one.number === number,
    )
    if (!proposal)
      return problem(
        context,
        404,
        'No such proposal',
        'Look at the list of proposals again; this site has none of that number.',
      )
    const signature = signatureOf(context, body.value, words)
    if (signature instanceof Response) return signature
    const { name: by, account, reason } = signature
    const hindrance = hindranceToDecide(proposal, decisionParts[part], signature)
    if (hindrance === 'not-its-proposer')
      return problem(
        context,
        403,
        'Taken back by its proposer alone',
        `${proposal.author} proposed this. A second person turns it down, or approves it.`,
      )
    if (hindrance === 'no-second-person')
      return problem(
        context,
        403,
        'A second person decides',
        `${proposal.author} proposed this and cannot decide it. Ask somebody else who may approve ${words.approves}.`,
      )
    if (hindrance === 'decided') return decided(context)
    return { proposal, decision: { kind: decisionParts[part], by, account, reason, atEpochMs: now() } }
  }

  const decided = (context: Context) =>
    problem(
      context,
      409,
      'Decided already',
      `Somebody decided this proposal meanwhile${mayBeWithdrawn ? ', or it was taken back' : ''}. Look at the list again; propose anew where something is to change.`,
    )

  const parts: readonly DecisionPart[] = [
    'approval',
    'rejection',
    ...(mayBeWithdrawn ? ['withdrawal' as const] : []),
  ]
  for (const part of parts)
    routes.post(`${path}/:proposal/${part}`, async (context) => {
      const read = await readDecision(context, part)
      if (read instanceof Response) return read
      const { proposal, decision } = read
      const site = context.req.param('site') ?? ''
      try {
        if (part === 'approval') await approveProposal(store, site, decidedKind, proposal, decision)
        else await store.closeProposal(site, kind, proposal.number, decision)
      } catch (failure) {
        if (failure instanceof ProposalDecided) return decided(context)
        if (failure instanceof RevisionPassed)
          return problem(
            context,
            409,
            'Changed while it was judged',
            'Nothing was changed: something of this site changed each time while the readings that this rests on were read again. Approve it once more in a moment.',
          )
        if (!(failure instanceof ProposalOvertaken)) throw failure
        return problem(
          context,
          409,
          `${words.records.slice(0, 1).toUpperCase()}${words.records.slice(1)} changed meanwhile`,
          `Nothing was changed: the ${words.records} are not as they were when this was proposed, or no longer go together with it. What is wrong stands in issues; ${words.instead}.`,
          failure.issues,
        )
      }
      if (part === 'approval') publisher.changed(site)
      return context.json({ number: proposal.number, decision })
    })

  return routes
}
