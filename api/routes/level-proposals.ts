import type { Context, Hono } from 'hono'
import {
  type LevelPreview,
  type LevelProposals,
  previewRequestSchema,
  proposalDraftSchema,
} from '#contract/level-proposals.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import { type LevelChange, proposeChanges } from '#domain/levels/level-change.ts'
import { accept } from '#domain/outcome.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import { approvedLevels, judgeProposal } from '../levels/judge-proposal.ts'
import { tryLevels, type ValuesOf } from '../levels/try-levels.ts'
import { valuesOfStore } from '../levels/values-of-store.ts'
import { type DecidedKind, decidedProposalRoutes, proposalsPath } from './decide-proposal.ts'
import { refuseProposal, signatureOf, whoAsks } from './proposal-signature.ts'
import { readBody } from './read-body.ts'

const path = proposalsPath('level')
/** Whether a level may be moved away depends on what it did within thirty days. */
const lookBackMs = 31 * 86_400_000

/** Changes of trigger levels: proposed by one person, tried on past values, decided by another. */
export function levelProposalRoutes(
  dependencies: Pick<Dependencies, 'store' | 'publisher' | 'now'> & { readonly valuesOf?: ValuesOf },
): Hono {
  const { store, publisher, now } = dependencies
  const valuesOf = dependencies.valuesOf ?? valuesOfStore(store)
  const routes = decidedProposalRoutes(dependencies, levels)

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
    const proposals = await store.listProposals(site, 'level')
    const list: LevelProposals = { proposals, ...whoAsks(context, 'approve-levels') }
    context.header('cache-control', 'no-cache')
    return context.json(list)
  })

  routes.post(`${path}/preview`, async (context) => {
    const body = await readBody(context, previewRequestSchema)
    if (!body.ok) return refuseProposal(context, levels.words, body.issues)
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

  routes.post(path, async (context) => {
    const body = await readBody(context, proposalDraftSchema)
    if (!body.ok) return refuseProposal(context, levels.words, body.issues)
    const { model, presentEpochMs } = await siteOf(context)
    const signature = signatureOf(context, body.value, levels.words)
    if (signature instanceof Response) return signature
    const { name: author, account, reason } = signature
    const changes = proposeChanges(model.triggerLevels, body.value.changes as readonly LevelChange[])
    if (!changes.ok) return refuseProposal(context, levels.words, changes.issues)
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
    if (!remarks.ok) return refuseProposal(context, levels.words, remarks.issues)
    const faults = remarks.value.filter(({ severity }) => severity === 'fault')
    if (faults.length > 0)
      return refuseProposal(
        context,
        levels.words,
        faults.map(({ code, sentence, level }) => ({
          code,
          message: level === null ? sentence : `${level}: ${sentence}`,
          ...(level === null ? {} : { value: level }),
        })),
      )
    const number = await store.addProposal(model.facts.id, 'level', {
      author,
      account,
      reason,
      atEpochMs: now(),
      changes: changes.value,
      warnings: remarks.value,
    })
    return context.json({ number, warnings: remarks.value }, 201)
  })

  return routes
}

const levels: DecidedKind<'level'> = {
  kind: 'level',
  mayBeWithdrawn: false,
  mostBytes: 4 * 1024 * 1024,
  tooLarge: ['Too many changes', 'A proposal has at most 5000 changes of up to 1000 characters a text.'],
  enact(model, { author, changes }, { by: approver, atEpochMs }) {
    const applied = approvedLevels(model, changes, {
      author,
      approver,
      // Invented data has a present of its own.
      atEpochMs: model.facts.presentEpochMs ?? atEpochMs,
    })
    return applied.ok ? accept({ ...model, triggerLevels: applied.value }) : applied
  },
  words: {
    notTaken: 'Change of levels not understood',
    signing: 'changes levels',
    records: 'levels',
    approves: 'levels',
    instead: 'reject the proposal and propose anew',
  },
}

const nothingTried: LevelPreview = { remarks: [], issues: [], proposed: [], present: [] }
