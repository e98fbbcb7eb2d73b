import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import {
  decisionDraftSchema,
  type LevelPreview,
  type LevelProposals,
  previewRequestSchema,
  proposalDraftSchema,
} from '#contract/level-proposals.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import { mayAt } from '#domain/access/membership.ts'
import { type LevelChange, proposeChanges } from '#domain/levels/level-change.ts'
import { isAnotherPerson, type LevelDecision, type StoredProposal } from '#domain/levels/level-proposal.ts'
import type { Issue } from '#domain/outcome.ts'
import { reservedAuthor } from '#domain/site/reserved-author.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import { approvedLevels, judgeProposal } from '../levels/judge-proposal.ts'
import { tryLevels, type ValuesOf } from '../levels/try-levels.ts'
import { valuesOfStore } from '../levels/values-of-store.ts'
import { ProposalDecided } from '../store/level-proposals.ts'
import { problem } from './problem.ts'
import { readBody } from './read-body.ts'
import { signerAccount, signerName } from './signed-by.ts'
import { siteMustExist } from './site-must-exist.ts'

const path = '/api/sites/:site/level-proposals'
/** Whether a level may be moved away depends on what it did within thirty days. */
const lookBackMs = 31 * 86_400_000

/** Changes of trigger levels: proposed by one person, tried on past values, decided by another. */
export function levelProposalRoutes(
  dependencies: Pick<Dependencies, 'store' | 'publisher' | 'now'> & { readonly valuesOf?: ValuesOf },
): Hono {
  const { store, publisher, now } = dependencies
  const valuesOf = dependencies.valuesOf ?? valuesOfStore(store)
  const routes = new Hono()
  const bounded = bodyLimit({
    maxSize: 4 * 1024 * 1024,
    onError: (context) =>
      problem(
        context,
        413,
        'Too many changes',
        'A proposal has at most 5000 changes of up to 1000 characters a text.',
      ),
  })
  routes.use(path, siteMustExist(dependencies))
  routes.use(`${path}/*`, siteMustExist(dependencies))

  const siteOf = async (context: Context) => {
    const model = (await store.getSite(context.req.param('site') ?? '')) as SiteModel
    // Invented data has a present of its own.
    return { model, presentEpochMs: model.facts.presentEpochMs ?? now() }
  }
  const seriesOf = async (site: string) => {
    const document = await publisher.siteDocument(site)
    return document ? ((JSON.parse(document.json) as Partial<SiteDocument>).series ?? []) : []
  }
  routes.get(path, async (context) => {
    const site = context.req.param('site')
    const account = context.get('caller')?.account
    const list: LevelProposals = {
      proposals: await store.listLevelProposals(site),
      namesAreProven: account !== undefined,
      mayDecide: account === undefined || mayAt(account.memberships, site, 'approve-levels'),
      signedInAs: account?.name ?? null,
    }
    context.header('cache-control', 'no-cache')
    return context.json(list)
  })

  routes.post(`${path}/preview`, bounded, async (context) => {
    const body = await readBody(context, previewRequestSchema)
    if (!body.ok) return refuse(context, body.issues)
    const { model, presentEpochMs } = await siteOf(context)
    const { fromEpochMs, reason } = body.value
    const changes = proposeChanges(model.triggerLevels, body.value.changes)
    if (!changes.ok) return context.json({ ...nothingTried, issues: changes.issues })
    const tried =
      fromEpochMs === null
        ? null
        : await tryLevels({ valuesOf, model, changes: changes.value, fromEpochMs, presentEpochMs })
    const remarks = judgeProposal({
      model,
      series: await seriesOf(model.facts.id),
      changes: changes.value,
      author: 'whoever proposes',
      reason,
      episodes: tried?.episodes ?? new Map(),
      presentEpochMs,
    })
    const preview: LevelPreview = {
      remarks: remarks.ok ? remarks.value : [],
      issues: remarks.ok ? [] : remarks.issues,
      proposed: tried?.proposed ?? [],
      present: tried?.present ?? [],
    }
    return context.json(preview)
  })

  routes.post(path, bounded, async (context) => {
    const body = await readBody(context, proposalDraftSchema)
    if (!body.ok) return refuse(context, body.issues)
    const { model, presentEpochMs } = await siteOf(context)
    const author = signerName(context, body.value.author).trim()
    const reason = body.value.reason.trim()
    const unsigned = unsignedIssues(author, reason)
    if (unsigned.length > 0) return refuse(context, unsigned)
    const changes = proposeChanges(model.triggerLevels, body.value.changes as readonly LevelChange[])
    if (!changes.ok) return refuse(context, changes.issues)
    const known = changes.value.filter(({ before }) => before !== null)
    const tried =
      known.length === 0
        ? null
        : await tryLevels({
            valuesOf,
            model,
            changes: known,
            fromEpochMs: presentEpochMs - lookBackMs,
            presentEpochMs,
          })
    const remarks = judgeProposal({
      model,
      series: await seriesOf(model.facts.id),
      changes: changes.value,
      author,
      reason,
      episodes: tried?.episodes ?? new Map(),
      presentEpochMs,
    })
    if (!remarks.ok) return refuse(context, remarks.issues)
    const faults = remarks.value.filter(({ severity }) => severity === 'fault')
    if (faults.length > 0)
      return refuse(
        context,
        faults.map(({ code, sentence, level }) => ({
          code,
          message: level === null ? sentence : `${level}: ${sentence}`,
          ...(level === null ? {} : { value: level }),
        })),
      )
    const number = await store.addLevelProposal(model.facts.id, {
      author,
      account: signerAccount(context),
      reason,
      atEpochMs: now(),
      changes: changes.value,
      warnings: remarks.value,
    })
    return context.json({ number, warnings: remarks.value }, 201)
  })

  /** Judges who decides what; answers with a problem, or with the proposal and the decision to record. */
  const readDecision = async (
    context: Context,
    kind: LevelDecision['kind'],
  ): Promise<Response | { proposal: StoredProposal; decision: LevelDecision }> => {
    const body = await readBody(context, decisionDraftSchema)
    if (!body.ok) return refuse(context, body.issues)
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
    if (unsigned.length > 0) return refuse(context, unsigned)
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
    const { model, presentEpochMs } = await siteOf(context)
    const site = model.facts.id
    try {
      await store.approveLevelProposal(
        site,
        proposal.number,
        decision,
        (latest) => {
          const levels = approvedLevels(latest, proposal.changes, {
            author: proposal.author,
            approver: decision.by,
            atEpochMs: presentEpochMs,
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

const nothingTried: LevelPreview = { remarks: [], issues: [], proposed: [], present: [] }

function unsignedIssues(author: string, reason: string): readonly Issue[] {
  const issues: Issue[] = []
  if (author === '')
    issues.push({
      code: 'author-missing',
      column: 'author',
      message: 'Write your name: whoever changes levels stands for it.',
    })
  issues.push(...reservedAuthor(author))
  if (reason === '')
    issues.push({
      code: 'reason-missing',
      column: 'reason',
      message: 'Write the reason: later readers must know why.',
    })
  return issues
}

const decided = (context: Context) =>
  problem(
    context,
    409,
    'Decided already',
    'Somebody decided this proposal meanwhile. Look at the list again; propose anew where something is to change.',
  )

const refuse = (context: Context, issues: readonly Issue[]) =>
  problem(
    context,
    400,
    'Change of levels not understood',
    'Nothing was changed; what is wrong with it stands in issues.',
    issues,
  )
