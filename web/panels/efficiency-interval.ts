import { accept, type Outcome, reject } from '#domain/outcome.ts'
import { fromLocalField, toLocalField } from '../ui/format-instant.ts'

/** An interval as the texts of two date fields, both days in it. */
export interface IntervalTexts {
  readonly from: string
  readonly until: string
}

const dayMs = 86_400_000

/** The last 30 days before an instant, in the site's zone. */
export const lastThirtyDays = (clockEpochMs: number, timeZone: string): IntervalTexts => ({
  from: toLocalField(clockEpochMs - 30 * dayMs, timeZone).slice(0, 10),
  until: toLocalField(clockEpochMs, timeZone).slice(0, 10),
})

/** The instants of an interval: whole days, but nothing from after the site clock. */
export function readInterval(
  { from, until }: IntervalTexts,
  clockEpochMs: number,
  timeZone: string,
): Outcome<{ readonly fromEpochMs: number; readonly untilEpochMs: number }> {
  const fromEpochMs = fromLocalField(`${from}T00:00`, timeZone)
  const lastDay = Date.parse(`${until}T00:00Z`)
  const dayAfter = Number.isFinite(lastDay) ? new Date(lastDay + dayMs).toISOString().slice(0, 10) : ''
  const endOfDay = fromLocalField(`${dayAfter}T00:00`, timeZone)
  if (fromEpochMs === null || endOfDay === null)
    return refuse('Give both days, the first and the last of the interval.')
  const untilEpochMs = Math.min(endOfDay, clockEpochMs)
  if (fromEpochMs >= untilEpochMs)
    return refuse('The interval must begin before it ends, and before the site clock. Correct the days.')
  if (untilEpochMs - fromEpochMs > 366 * dayMs)
    return refuse('The interval is longer than a year. Choose a shorter one: aquifer and well change.')
  return accept({ fromEpochMs, untilEpochMs })
}

const refuse = (message: string) => reject({ code: 'interval-unfit', message })
