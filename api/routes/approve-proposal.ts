import type { Issue, Outcome } from '#domain/outcome.ts'
import { type Decision, type Enact, type Kept, reasonOfRecord } from '#domain/proposals/proposal.ts'
import type { ProposalKind, ProposalsByKind } from '#domain/proposals/proposal-kinds.ts'
import { ProposalDecided } from '../store/decided-proposals.ts'
import { RevisionPassed } from '../store/revision-passed.ts'
import type { Store } from '../store/store.ts'

/** A proposal as the readings of the store have it. */
export interface ReadProposal<K extends ProposalKind> {
  readonly proposal: Kept<ProposalsByKind[K]>
  /** Readings stamped from here on are none of those that it rests on. */
  readonly untilEpochMs: number
}

/** How proposals of one kind are judged again when they are approved. */
export interface Approving<K extends ProposalKind> {
  readonly kind: K
  readonly enact: Enact<ProposalsByKind[K]>
  /**
   * A proposal as the readings of the store have it by now, for `enact`, whose transaction reads none; refused where they no
   * longer bear it. Null: nothing of it rests on readings. Left out: that is so of every one.
   */
  readonly readAgain?: (
    store: Store,
    site: string,
    proposal: Kept<ProposalsByKind[K]>,
  ) => Promise<Outcome<ReadProposal<K>>> | null
}

/** A site to which something comes each time before it can be decided is given up after so many. */
const mostAttempts = 8

/**
 * Makes of a site's records what was proposed, and that it was approved, in one transaction. Readings are read before it; where
 * something came in between that may touch them, once more. Throws `ProposalOvertaken`, `ProposalDecided`, or `RevisionPassed`
 * where something came each time.
 */
export async function approveProposal<K extends ProposalKind>(
  store: Store,
  site: string,
  approving: Approving<K>,
  proposal: Kept<ProposalsByKind[K]>,
  decision: Decision,
): Promise<void> {
  const { kind, enact } = approving
  // Before the readings, so that what comes while they are read is seen.
  let revision = await store.revision(site)
  let read = await readFor(store, site, approving, proposal)
  for (let attempt = 1; ; attempt++)
    try {
      await store.approveProposal(
        site,
        kind,
        proposal.number,
        decision,
        (latest) => {
          const enacted = enact(latest, read?.proposal ?? proposal, decision)
          if (!enacted.ok) throw new ProposalOvertaken(enacted.issues)
          return enacted.value
        },
        {
          author: decision.by,
          account: decision.account,
          reason: reasonOfRecord(proposal, decision),
          atEpochMs: decision.atEpochMs,
        },
        read ? revision : undefined,
      )
      return
    } catch (failure) {
      if (!read || !(failure instanceof RevisionPassed) || attempt === mostAttempts) throw failure
      const { untilEpochMs } = read
      const arrived = await store.arrivedSince(site, revision)
      revision = arrived.revision
      if (arrived.recordsChanged || arrived.channels.some(({ fromEpochMs }) => fromEpochMs < untilEpochMs))
        read = await readFor(store, site, approving, proposal)
    }
}

async function readFor<K extends ProposalKind>(
  store: Store,
  site: string,
  { kind, readAgain }: Approving<K>,
  proposal: Kept<ProposalsByKind[K]>,
): Promise<ReadProposal<K> | null> {
  const read = (await readAgain?.(store, site, proposal)) ?? null
  if (read === null || read.ok) return read?.value ?? null
  const now = (await store.listProposals(site, kind)).find(({ number }) => number === proposal.number)
  // What overtook it may be its own approval by somebody else.
  if (now?.decision) throw new ProposalDecided(`${kind} proposal ${proposal.number} was decided meanwhile`)
  throw new ProposalOvertaken(read.issues)
}

/** What was proposed does not go with the records any more, or the readings no longer bear it. */
export class ProposalOvertaken extends Error {
  readonly issues: readonly Issue[]
  constructor(issues: readonly Issue[]) {
    super(issues.map(({ message }) => message).join(' '))
    this.issues = issues
  }
}
