import type { ReportList } from '#contract/reports.ts'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import { followerOf } from '#domain/report/manifest-faults.ts'
import {
  type Paper,
  type ReportKind,
  type ReportManifest,
  type ReportPart,
  reportParts,
} from '#domain/report/report.ts'
import { lastWholePeriod } from '#domain/report/report-period.ts'
import { pageSoftware } from '../../state/page-software.ts'
import { fromLocalField, toLocalField } from '../../ui/format-instant.ts'

/** What is typed and chosen before a report is made; instants are texts of the site's time. */
export interface ReportDraft {
  readonly kind: ReportKind
  readonly from: string
  readonly until: string
  /** Empty: the present. */
  readonly cutOff: string
  readonly paper: Paper
  readonly parts: readonly ReportPart[]
  readonly views: ReportManifest['views']
  readonly statement: string
}

export const kindNames: Readonly<Record<ReportKind, string>> = {
  weekly: 'Weekly',
  monthly: 'Monthly',
  'on-request': 'On request',
}

export const partNames: Readonly<Record<ReportPart, string>> = {
  exceedances: 'Exceedances and responses',
  plan: 'Plan',
  sections: 'Sections',
  profiles: 'Profiles by depth',
  histories: 'Readings over time',
  calibrations: 'Calibrations used',
  minutes: 'Minutes and actions',
}

/** A report of a kind as it is begun: the last whole period, or the last seven days. */
export function beginDraft(kind: ReportKind, asOfEpochMs: number, timeZone: string): ReportDraft {
  const period =
    kind === 'on-request'
      ? { fromEpochMs: asOfEpochMs - 7 * 86_400_000, untilEpochMs: asOfEpochMs }
      : lastWholePeriod(kind, asOfEpochMs, timeZone)
  return {
    kind,
    from: toLocalField(period.fromEpochMs, timeZone),
    until: toLocalField(period.untilEpochMs, timeZone),
    cutOff: '',
    paper: 'A4',
    parts: reportParts,
    views: [],
    statement: '',
  }
}

/** What a field says that cannot be used; null: all can. */
export function draftFault(
  { from, until, cutOff, statement }: ReportDraft,
  timeZone: string,
): { readonly field: 'from' | 'until' | 'cutOff' | 'statement'; readonly sentence: string } | null {
  const at = (text: string) => fromLocalField(text, timeZone)
  const [begins, ends] = [at(from), at(until)]
  if (begins === null) return { field: 'from', sentence: 'Say when the period begins.' }
  if (ends === null) return { field: 'until', sentence: 'Say when the period ends.' }
  if (ends <= begins)
    return { field: 'until', sentence: 'The period ends no later than it begins. Correct one of the two.' }
  const cut = cutOff === '' ? null : at(cutOff)
  if (cutOff !== '' && cut === null)
    return { field: 'cutOff', sentence: 'This is no time. Leave it empty for the present.' }
  if (cut !== null && cut < ends)
    return {
      field: 'cutOff',
      sentence: 'The data would be frozen before the period ends; what is missing would read as silence.',
    }
  if (statement.trim() === '')
    return {
      field: 'statement',
      sentence: 'Write your statement first: what the readings show, and what follows from it.',
    }
  return null
}

/** The manifest of a draft, over a data set that was frozen for it. */
export function manifestOf(
  draft: ReportDraft,
  frozen: FrozenSet,
  { reports, software }: Pick<ReportList, 'reports' | 'software'>,
  signed: { readonly author: string; readonly atEpochMs: number; readonly timeZone: string },
): ReportManifest {
  const last = reports.find(({ manifest }) => manifest.kind === draft.kind) ?? null
  const at = (text: string) => fromLocalField(text, signed.timeZone) ?? Number.NaN
  return {
    form: 1,
    site: frozen.site,
    ...followerOf(last, draft.kind),
    fromEpochMs: at(draft.from),
    untilEpochMs: at(draft.until),
    paper: draft.paper,
    parts: reportParts.filter((part) => draft.parts.includes(part)),
    views: draft.views,
    statement: { text: draft.statement.trim(), author: signed.author.trim(), atEpochMs: signed.atEpochMs },
    frozenSet: frozen.id,
    cutOffEpochMs: frozen.cutOffEpochMs,
    software: pageSoftware() ?? software,
  }
}
