import { z } from 'zod'
import type { Episode } from '#domain/alerts/episode.ts'
import type { LevelChange, LevelDraft } from '#domain/levels/level-change.ts'
import type { LevelProposal, ProposalRemark } from '#domain/levels/level-proposal.ts'
import type { Issue } from '#domain/outcome.ts'
import type { Kept } from '#domain/proposals/proposal.ts'
import { type WatchedOfSeries, watchedOfSeries } from '#domain/site/vocabulary.ts'
import { nameOfSigner as name, type ProposalList, sentence, signedShape } from './proposals.ts'

const instant = z.int().min(Date.UTC(1950, 0)).max(Date.UTC(2200, 0))
const id = z.string().min(1).max(200)
const finite = z.number()

/** A level as it is proposed; what its cells may hold is judged by the checks of a site. */
const levelDraftSchema = z.strictObject({
  id,
  series: id,
  level: z.int().min(1).max(6),
  direction: z.enum(['above', 'below', 'either']),
  value: finite,
  validFrom: instant,
  validUntil: instant.nullable(),
  action: sentence,
  owner: name,
  withinMinutes: finite.min(1),
  reason: sentence,
  watches: z.enum(watchedOfSeries).nullish(),
  against: z.string().max(4000).nullish(),
  needed: z.int().min(1).nullish(),
  windowMinutes: finite.min(1).nullish(),
  changeSince: instant.nullish(),
  stage: id.nullish(),
  holdReadings: z.int().min(1).nullish(),
  holdMinutes: finite.min(0).nullish(),
  hysteresisShare: finite.min(0).max(0.9).nullish(),
  longestGapMinutes: finite.min(1).nullish(),
}) as z.ZodType<LevelDraft>

const levelChangeSchema: z.ZodType<LevelChange> = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('add'), level: levelDraftSchema }),
  z.strictObject({ kind: z.literal('end'), id, atEpochMs: instant }),
  z.strictObject({ kind: z.literal('replace'), id, level: levelDraftSchema }),
])

const changes = z.array(levelChangeSchema).min(1, 'at least one change').max(5000)

/** `POST /api/sites/:site/level-proposals`: answered with the proposal, or with what is wrong in issues. */
export const proposalDraftSchema = z.strictObject({ changes, ...signedShape })
export type ProposalDraft = z.infer<typeof proposalDraftSchema>

/** `POST /api/sites/:site/level-proposals/preview`. */
export const previewRequestSchema = z.strictObject({
  changes,
  reason: sentence,
  /** Since when past values are tried; null: the changes are judged alone. */
  fromEpochMs: instant.nullable(),
})
export type PreviewRequest = z.infer<typeof previewRequestSchema>

/** `GET /api/sites/:site/level-proposals`. */
export type LevelProposals = ProposalList<Kept<LevelProposal>>

/** What a level would have raised on past values. */
export interface TriedLevel {
  readonly level: string
  readonly series: string
  readonly watches: WatchedOfSeries
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  /** Times that it stood long enough, and times that it was reached and did not. */
  readonly raised: number
  readonly crossedOnly: number
  /** The newest of them, newest first, at most 20. */
  readonly episodes: readonly Episode[]
}

/** What a proposal would do. */
export interface LevelPreview {
  /** What refuses it and what warns of it. */
  readonly remarks: readonly ProposalRemark[]
  readonly issues: readonly Issue[]
  /** Levels proposed, and those they replace or end; empty where no past values were asked for. */
  readonly proposed: readonly TriedLevel[]
  readonly present: readonly TriedLevel[]
}
