import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import { seriesIds } from '../site/series-ids.ts'
import type { SiteModel } from '../site/site.ts'
import { showInstant } from '../site/site-readings.ts'
import type { Suppression, SuppressionEnd } from '../site/tables.ts'
import { type SuppressibleIds, suppressionFaults } from './suppression-faults.ts'

/** What a person proposes to hold back, from now on. */
export interface SuppressionDraft {
  readonly covers: Suppression['covers']
  readonly name: string
  readonly untilEpochMs: number
  readonly reason: string
  readonly author: string
}

export interface SuppressionEndDraft {
  readonly suppression: string
  readonly reason: string
  readonly author: string
}

/** Ids that suppressions of a site may name. */
export const suppressibleIds = (
  model: Parameters<typeof seriesIds>[0] & Pick<SiteModel, 'triggerLevels' | 'loggers'>,
): SuppressibleIds => ({
  level: new Set(model.triggerLevels.map(({ id }) => id)),
  series: seriesIds(model),
  instrument: new Set(model.instruments.map(({ id }) => id)),
  logger: new Set(model.loggers.map(({ id }) => id)),
})

/**
 * The record that a draft becomes, or every reason why not; an issue's `column` is the place in the draft. One that
 * begins now: what was not sent before cannot be taken back. Named `SU-1`, `SU-2` …
 */
export function nextSuppression(
  model: Parameters<typeof suppressibleIds>[0] & Pick<SiteModel, 'suppressions'>,
  draft: SuppressionDraft,
  atEpochMs: number,
): Outcome<Suppression> {
  const numbers = model.suppressions.map(({ id }) => Number(/^SU-(\d+)$/.exec(id)?.[1] ?? 0))
  const row: Suppression = {
    id: `SU-${Math.max(0, ...numbers) + 1}`,
    covers: draft.covers,
    name: draft.name.trim(),
    fromAt: atEpochMs,
    untilAt: draft.untilEpochMs,
    reason: draft.reason.trim(),
    author: draft.author.trim(),
  }
  const issues = [
    ...suppressionFaults(row, suppressibleIds(model)).map((fault) =>
      fault.column === 'untilAt' ? { ...fault, column: 'untilEpochMs' } : fault,
    ),
    ...emptyTexts(row),
  ]
  return issues.length > 0 ? reject(...issues) : accept(row)
}

/** The record by which a suppression ends early, or every reason why not. It ends once. */
export function nextSuppressionEnd(
  model: Pick<SiteModel, 'suppressions' | 'suppressionEnds'>,
  draft: SuppressionEndDraft,
  atEpochMs: number,
): Outcome<SuppressionEnd> {
  const row: SuppressionEnd = {
    suppression: draft.suppression,
    at: atEpochMs,
    author: draft.author.trim(),
    reason: draft.reason.trim(),
  }
  const issues: Issue[] = [...emptyTexts(row)]
  const place = { column: 'suppression', value: draft.suppression }
  const found = model.suppressions.find(({ id }) => id === draft.suppression)
  const before = model.suppressionEnds.find(({ suppression }) => suppression === draft.suppression)
  if (!found)
    issues.push({
      ...place,
      code: 'suppression-unknown',
      message: `There is no suppression ${draft.suppression} at this site. Choose one that is listed.`,
    })
  else if (before)
    issues.push({
      ...place,
      code: 'ended-already',
      message: `${draft.suppression} was ended already by ${before.author}: ${before.reason}.`,
    })
  else if (found.untilAt <= atEpochMs)
    issues.push({
      ...place,
      code: 'ended-already',
      message: `${draft.suppression} ended by itself at ${showInstant(found.untilAt)}; sending goes on since.`,
    })
  return issues.length > 0 ? reject(...issues) : accept(row)
}

const emptyTexts = (row: { readonly reason: string; readonly author: string }): readonly Issue[] => [
  ...(row.reason === ''
    ? [
        {
          code: 'reason-missing',
          column: 'reason',
          value: '',
          message: 'No reason is given. Say why, so that whoever comes after knows.',
        },
      ]
    : []),
  ...(row.author === ''
    ? [
        {
          code: 'author-missing',
          column: 'author',
          value: '',
          message: 'Nobody is named who decides it. Write your name.',
        },
      ]
    : []),
]
