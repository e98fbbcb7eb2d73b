import type { VerdictDraft } from '#domain/site/draft-verdict.ts'
import type { VerdictCause, VerdictConfidence, VerdictEffect } from '#domain/site/verdict-words.ts'
import type { VerdictKind } from '#domain/site/vocabulary.ts'
import { fromLocalField, toLocalField } from '../ui/format-instant.ts'
import type { HistoryStretch } from '../views/time-history/history-props.ts'

/** How long a verdict holds: to another instant, for the one minute, or with no end yet. */
export type Lasting = 'until' | 'minute' | 'on'

/** A verdict as the texts of a form's fields. */
export interface VerdictFields {
  readonly series: string
  /** Of datetime-local fields, in the site's zone. */
  readonly from: string
  readonly until: string
  readonly lasting: Lasting
  /** Empty: not chosen yet. */
  readonly verdict: VerdictKind | ''
  readonly reason: string
  readonly alternatives: string
  readonly author: string
  /** Empty: not chosen yet. */
  readonly cause: VerdictCause | ''
  readonly confidence: VerdictConfidence | ''
  readonly effects: readonly VerdictEffect[]
}

/** What a verdict says beside its stretch and its words, before anything is chosen: nothing is proposed. */
export const nothingFound: Pick<VerdictFields, 'cause' | 'confidence' | 'effects'> = {
  cause: '',
  confidence: '',
  effects: [],
}

export const stretchFields = (
  { fromEpochMs, untilEpochMs }: HistoryStretch,
  timeZone: string,
): Pick<VerdictFields, 'from' | 'until' | 'lasting'> => ({
  from: toLocalField(fromEpochMs, timeZone),
  until: toLocalField(untilEpochMs, timeZone),
  lasting: 'until',
})

type UncheckedDraft = Omit<VerdictDraft, 'fromEpochMs' | 'verdict'> & {
  readonly fromEpochMs: number | null
  readonly verdict: VerdictKind | null
}

/** The draft that a filled form says, unchecked: the server judges it and says what is wrong and where. */
export function draftOfVerdict(fields: VerdictFields, timeZone: string): UncheckedDraft {
  const fromEpochMs = fromLocalField(fields.from, timeZone)
  const end = {
    until: fromLocalField(fields.until, timeZone) ?? fromEpochMs,
    minute: fromEpochMs === null ? null : fromEpochMs + 60_000,
    on: null,
  }
  return {
    series: fields.series,
    fromEpochMs,
    untilEpochMs: end[fields.lasting],
    verdict: fields.verdict === '' ? null : fields.verdict,
    reason: fields.reason,
    alternatives: fields.alternatives,
    author: fields.author,
    cause: fields.cause === '' ? null : fields.cause,
    confidence: fields.confidence === '' ? null : fields.confidence,
    effects: fields.effects,
  }
}

/** The stretch of a draft that can be looked at; one without an end is looked at up to the end of the record. */
export function stretchOfDraft(
  { fromEpochMs, untilEpochMs }: Pick<UncheckedDraft, 'fromEpochMs' | 'untilEpochMs'>,
  endOfRecordEpochMs: number,
): HistoryStretch | null {
  const end = untilEpochMs ?? endOfRecordEpochMs
  return fromEpochMs === null || end <= fromEpochMs ? null : { fromEpochMs, untilEpochMs: end }
}

const fieldOfColumn: Readonly<Record<string, keyof VerdictFields>> = {
  series: 'series',
  fromEpochMs: 'from',
  untilEpochMs: 'until',
  verdict: 'verdict',
  reason: 'reason',
  alternatives: 'alternatives',
  author: 'author',
  cause: 'cause',
  confidence: 'confidence',
  effects: 'effects',
}

/** The field of the form that an issue's place in the draft means; null: the whole. */
export const fieldOfIssue = (column: string | number | undefined): keyof VerdictFields | null =>
  fieldOfColumn[String(column ?? '')] ?? null
