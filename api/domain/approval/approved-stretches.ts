import type { Approval, ApprovalWithdrawal } from '../site/tables.ts'

/** An approval that nobody took back, and whether what its values are made by is still what was approved. */
export interface StandingApproval {
  readonly id: string
  readonly instrument: string
  readonly fromEpochMs: number
  /** Exclusive. */
  readonly untilEpochMs: number
  readonly approvedAtEpochMs: number
  readonly approver: string
  readonly statement: string
  /** True where calibration, wiring or another record of the values was changed since: they are provisional again. */
  readonly changedSince: boolean
  /** False where the approval, from a folder, does not say what its values were made by: a later change is not told. */
  readonly compared: boolean
}

/**
 * The approvals of a site that stand, in the order given. `recipeNow` gives what the values of an instrument in a stretch are now
 * made by; an approval that does not say what they were made by then (from a folder) is not compared.
 */
export function standingApprovals(
  approvals: readonly Approval[],
  withdrawals: readonly Pick<ApprovalWithdrawal, 'approval'>[],
  recipeNow: (instrument: string, fromEpochMs: number, untilEpochMs: number) => string,
): readonly StandingApproval[] {
  const withdrawn = new Set(withdrawals.map(({ approval }) => approval))
  return approvals
    .filter(({ id }) => !withdrawn.has(id))
    .map(({ id, instrument, fromAt, untilAt, at, approver, statement, recipe }) => ({
      id,
      instrument,
      fromEpochMs: fromAt,
      untilEpochMs: untilAt,
      approvedAtEpochMs: at,
      approver,
      statement,
      compared: recipe !== null,
      changedSince: recipe !== null && recipe !== recipeNow(instrument, fromAt, untilAt),
    }))
}

/** A stretch that is approved as it stands, and when: what arrived later in it is provisional. */
export interface ApprovedStretch {
  readonly fromEpochMs: number
  /** Exclusive. */
  readonly untilEpochMs: number
  readonly approvedAtEpochMs: number
}

/** Stretches of an instrument that are approved as it stands, none over another, in order of time; of several approvals the latest counts. */
export function approvedStretches(
  approvals: readonly StandingApproval[],
  instrument: string,
): readonly ApprovedStretch[] {
  const own = approvals.filter((one) => one.instrument === instrument && !one.changedSince)
  const edges = [...new Set(own.flatMap((one) => [one.fromEpochMs, one.untilEpochMs]))].sort(
    (one, other) => one - other,
  )
  const stretches: { fromEpochMs: number; untilEpochMs: number; approvedAtEpochMs: number }[] = []
  edges.slice(1).forEach((untilEpochMs, i) => {
    const fromEpochMs = edges[i] as number
    const covering = own.filter((one) => one.fromEpochMs <= fromEpochMs && untilEpochMs <= one.untilEpochMs)
    if (covering.length === 0) return
    const approvedAtEpochMs = Math.max(...covering.map((one) => one.approvedAtEpochMs))
    const last = stretches.at(-1)
    if (last?.untilEpochMs === fromEpochMs && last.approvedAtEpochMs === approvedAtEpochMs)
      last.untilEpochMs = untilEpochMs
    else stretches.push({ fromEpochMs, untilEpochMs, approvedAtEpochMs })
  })
  return stretches
}
