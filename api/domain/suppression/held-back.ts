import type { Suppression, SuppressionEnd } from '../site/tables.ts'

/** What an alert is about, as suppressions name it. Null: it has none, as the silence of a channel has no level. */
export interface AlertSubject {
  readonly level: string | null
  readonly series: string | null
  readonly instrument: string | null
  readonly logger: string | null
}

/** A suppression with the instant at which sending goes on: its own end, or when a person ended it. */
export interface StandingSuppression {
  readonly suppression: Suppression
  readonly untilEpochMs: number
  readonly ended: SuppressionEnd | null
}

export function withEnds(
  suppressions: readonly Suppression[],
  ends: readonly SuppressionEnd[],
): readonly StandingSuppression[] {
  const endOf = new Map(ends.map((end) => [end.suppression, end]))
  return suppressions.map((suppression) => {
    const ended = endOf.get(suppression.id) ?? null
    return { suppression, untilEpochMs: Math.min(suppression.untilAt, ended?.at ?? Infinity), ended }
  })
}

/** Those that hold at an instant: from inclusive, until exclusive. */
export const standingAt = (
  suppressions: readonly StandingSuppression[],
  atEpochMs: number,
): readonly StandingSuppression[] =>
  suppressions.filter(
    ({ suppression, untilEpochMs }) => suppression.fromAt <= atEpochMs && atEpochMs < untilEpochMs,
  )

export const isCovered = ({ covers, name }: Suppression, subject: AlertSubject): boolean =>
  subject[covers] === name

export interface Sending {
  /** What holds it back now; empty: it is sent. */
  readonly heldBy: readonly StandingSuppression[]
  /** From when it is sent, as far as is known now: the end of all that holds it back one after another. */
  readonly fromEpochMs: number
}

/**
 * Whether an alert is held back at an instant, by what and until when. Sending only: it is raised, listed and counted
 * all the same. Once nothing holds it back any more it is told as if it had been raised then, so whoever counts the
 * minutes of an escalation starts at `fromEpochMs`: the instant of raising, or the end of the last stretch of
 * overlapping or adjoining suppressions between raising and now.
 */
export function sendingOf(
  subject: AlertSubject,
  suppressions: readonly StandingSuppression[],
  raisedAtEpochMs: number,
  nowEpochMs: number,
): Sending {
  const about = suppressions.filter(
    ({ suppression, untilEpochMs }) =>
      isCovered(suppression, subject) &&
      suppression.fromAt <= nowEpochMs &&
      untilEpochMs > Math.max(raisedAtEpochMs, suppression.fromAt),
  )
  const past = Math.max(raisedAtEpochMs, ...about.map(({ untilEpochMs }) => untilEpochMs))
  return {
    heldBy: standingAt(about, nowEpochMs),
    fromEpochMs: past <= nowEpochMs ? past : endOfChain(subject, suppressions, nowEpochMs),
  }
}

/** Goes on from the end of what holds it back to the end of what holds it back then, until nothing does. */
function endOfChain(
  subject: AlertSubject,
  suppressions: readonly StandingSuppression[],
  nowEpochMs: number,
): number {
  let at = nowEpochMs
  for (;;) {
    const until = Math.max(
      at,
      ...standingAt(suppressions, at)
        .filter(({ suppression }) => isCovered(suppression, subject))
        .map(({ untilEpochMs }) => untilEpochMs),
    )
    if (until === at) return at
    at = until
  }
}

/** Of alerts that nobody acknowledged, those that are told when a suppression ends: held back by it and by nothing after. */
export function comesBack<A extends { readonly subject: AlertSubject; readonly raisedAtEpochMs: number }>(
  unacknowledged: readonly A[],
  ending: StandingSuppression,
  suppressions: readonly StandingSuppression[],
): readonly A[] {
  const at = ending.untilEpochMs
  return unacknowledged.filter(
    ({ subject, raisedAtEpochMs }) =>
      raisedAtEpochMs < at &&
      isCovered(ending.suppression, subject) &&
      sendingOf(subject, suppressions, raisedAtEpochMs, at).heldBy.length === 0,
  )
}
