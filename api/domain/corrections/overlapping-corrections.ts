import type { CorrectionDraft, ProposedCorrection } from './correction.ts'

/** What a correction is of: its series, or the logger whose clock it is. */
export const subjectOf = (one: CorrectionDraft): string => (one.kind === 'clock' ? one.logger : one.series)

/** Whether two corrections are of one series in some of the same time; a clock is of all that its logger reads. */
export const isOverlapping = (one: CorrectionOrDraft, other: CorrectionOrDraft): boolean =>
  namesOf(one).some((name) => namesOf(other).includes(name)) && isAtOnce(one, other)

const isAtOnce = (one: CorrectionDraft, other: CorrectionDraft): boolean =>
  one.fromEpochMs < (other.untilEpochMs ?? Number.POSITIVE_INFINITY) &&
  other.fromEpochMs < (one.untilEpochMs ?? Number.POSITIVE_INFINITY)

/** Whether two of one proposal are of the same in some of the same time: of a series, or of the clock of a logger. */
export const isTwice = (one: CorrectionDraft, other: CorrectionDraft): boolean =>
  one.kind === other.kind && subjectOf(one) === subjectOf(other) && isAtOnce(one, other)

type CorrectionOrDraft = CorrectionDraft & Partial<Pick<ProposedCorrection, 'moves'>>

const namesOf = (one: CorrectionOrDraft): readonly string[] =>
  one.kind === 'clock' ? [`clock of ${one.logger}`, one.series, ...(one.moves ?? [])] : [one.series]
