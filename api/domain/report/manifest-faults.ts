import type { Issue } from '../outcome.ts'
import type { IssuedReport, ReportKind, ReportManifest } from './report.ts'
import { instantText } from './site-days.ts'

/** What the site and its data say, against which a manifest is held. */
export interface ManifestSurroundings {
  readonly site: string
  readonly timeZone: string
  /** The frozen set that it names; null: there is none of that name. */
  readonly frozen: { readonly cutOffEpochMs: number } | null
  /** The last issue of its kind; null: there was none. */
  readonly last: Pick<IssuedReport, 'manifest'> | null
}

/** Everything that keeps a manifest from being issued; an issue's `column` is the place in it. Empty: nothing does. */
export function manifestFaults(
  manifest: ReportManifest,
  { site, timeZone, frozen, last }: ManifestSurroundings,
): readonly Issue[] {
  const { statement, fromEpochMs, untilEpochMs, cutOffEpochMs } = manifest
  const issues: Issue[] = []
  const fault = (code: string, column: string, message: string, value?: string) =>
    issues.push({ code, column, message, ...(value === undefined ? {} : { value }) })
  if (manifest.site !== site)
    fault('other-site', 'site', `It is of the site ${manifest.site}, not of ${site}.`, manifest.site)
  if (statement.text.trim() === '')
    fault(
      'statement-missing',
      'statement',
      'The engineer’s statement is empty. Say in your own words what the readings show and what follows from it.',
    )
  if (statement.author.trim() === '') fault('author-missing', 'author', 'Nobody is named. Write your name.')
  if (untilEpochMs <= fromEpochMs)
    fault(
      'ends-before-begin',
      'untilEpochMs',
      `The period would end at ${instantText(untilEpochMs, timeZone)}, not later than it begins. Correct one of the two.`,
    )
  if (untilEpochMs > cutOffEpochMs)
    fault(
      'ends-after-cut-off',
      'untilEpochMs',
      `The period ends at ${instantText(untilEpochMs, timeZone)}, and the data are frozen at ${instantText(cutOffEpochMs, timeZone)}: what came after that would read as silence. End the period earlier, or freeze the data anew.`,
    )
  if (!frozen)
    fault(
      'frozen-set-unknown',
      'frozenSet',
      `There is no frozen data set ${manifest.frozenSet} at this site. Freeze the data anew and make the report from that.`,
      manifest.frozenSet,
    )
  else if (frozen.cutOffEpochMs !== cutOffEpochMs)
    fault(
      'other-cut-off',
      'cutOffEpochMs',
      `The frozen data set ends at ${instantText(frozen.cutOffEpochMs, timeZone)}, not at ${instantText(cutOffEpochMs, timeZone)}. Make the report anew.`,
    )
  const wanted = followerOf(last, manifest.kind)
  if (
    manifest.previousNumber === wanted.previousNumber &&
    (manifest.previousFrozenSet !== wanted.previousFrozenSet ||
      manifest.previousUntilEpochMs !== wanted.previousUntilEpochMs)
  )
    fault(
      'other-previous',
      'previousFrozenSet',
      'Changes are not counted from the data of the issue before. Make the report anew.',
    )
  return issues
}

/** What a report that follows another says of it. */
export function followerOf(
  last: Pick<IssuedReport, 'manifest'> | null,
  kind: ReportKind,
): Pick<ReportManifest, 'kind' | 'number' | 'previousNumber' | 'previousFrozenSet' | 'previousUntilEpochMs'> {
  return {
    kind,
    number: (last?.manifest.number ?? 0) + 1,
    previousNumber: last?.manifest.number ?? null,
    previousFrozenSet: last?.manifest.frozenSet ?? null,
    previousUntilEpochMs: last?.manifest.untilEpochMs ?? null,
  }
}
