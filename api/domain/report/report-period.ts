import type { ReportKind } from './report.ts'
import { siteDay, startOfSiteDay } from './site-days.ts'

/** A stretch that a report tells of: first instant, and the first that it no longer tells of. */
export interface ReportPeriod {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

/**
 * The last whole week (Monday to Monday, ISO 8601) or calendar month that had ended by an instant, by the clocks of the
 * site: a week in which they change has 167 or 169 hours.
 */
export function lastWholePeriod(
  kind: Exclude<ReportKind, 'on-request'>,
  atEpochMs: number,
  timeZone: string,
): ReportPeriod {
  const today = siteDay(atEpochMs, timeZone)
  const [first, last] = kind === 'weekly' ? weekBefore(today) : monthBefore(today)
  return { fromEpochMs: startOfSiteDay(first, timeZone), untilEpochMs: startOfSiteDay(last, timeZone) }
}

/** Which regular reports are owed: the last whole period of a kind for which none was issued that tells of all of it. */
export function reportsDue(
  issued: readonly (ReportPeriod & { readonly kind: ReportKind })[],
  atEpochMs: number,
  timeZone: string,
): readonly (ReportPeriod & { readonly kind: Exclude<ReportKind, 'on-request'> })[] {
  return (['weekly', 'monthly'] as const).flatMap((kind) => {
    const period = lastWholePeriod(kind, atEpochMs, timeZone)
    const told = issued.some(
      (one) =>
        one.kind === kind && one.fromEpochMs <= period.fromEpochMs && one.untilEpochMs >= period.untilEpochMs,
    )
    return told ? [] : [{ kind, ...period }]
  })
}

/** Day 0 of the calendar, 1 January 1970, was a Thursday. */
function weekBefore(today: number): readonly [number, number] {
  const monday = today - ((today + 3) % 7)
  return [monday - 7, monday]
}

function monthBefore(today: number): readonly [number, number] {
  const date = new Date(today * 86_400_000)
  const first = (monthsBack: number) =>
    Date.UTC(date.getUTCFullYear(), date.getUTCMonth() - monthsBack, 1) / 86_400_000
  return [first(1), first(0)]
}
