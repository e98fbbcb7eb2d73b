import { parseTimeOfDay } from '../roster/shift-times.ts'
import { firstInstantShowing, wallReading } from '../roster/wall-clock.ts'
import type { SiteFacts } from '../site/site.ts'

const dayMs = 86_400_000
/** A drill held up to three days before it is due counts for it. */
const earlyMs = 3 * dayMs

export interface DrillStanding {
  readonly duty: string
  /** The last time that one was due; the next. */
  readonly dueEpochMs: number
  readonly nextEpochMs: number
  /** When the last one due was held; null: it was not, and is overdue. */
  readonly heldEpochMs: number | null
  /** The last one held at all, null: none is on record. */
  readonly lastEpochMs: number | null
}

/**
 * How the monthly drill stands at an instant, by the site's own calendar and clocks; null where none is planned. A drill
 * counts for the month from three days before it is due until three days before the next is.
 */
export function drillStanding(
  facts: Pick<SiteFacts, 'timeZone' | 'drillDayOfMonth' | 'drillTime' | 'drillDuty'>,
  heldAtEpochMs: readonly number[],
  nowEpochMs: number,
): DrillStanding | null {
  const minute = parseTimeOfDay(facts.drillTime ?? '')
  const dayOfMonth = facts.drillDayOfMonth ?? null
  const duty = facts.drillDuty ?? null
  if (minute === null || dayOfMonth === null || duty === null) return null
  const today = new Date(wallReading(nowEpochMs, facts.timeZone).day * dayMs)
  const due = (monthsOn: number): number => {
    const date = Date.UTC(today.getUTCFullYear(), today.getUTCMonth() + monthsOn, dayOfMonth)
    return firstInstantShowing(date / dayMs, minute, facts.timeZone)
  }
  const monthsOn = due(0) <= nowEpochMs ? 0 : -1
  const [dueEpochMs, nextEpochMs] = [due(monthsOn), due(monthsOn + 1)]
  const held = heldAtEpochMs.filter((at) => at <= nowEpochMs).sort((one, other) => one - other)
  return {
    duty,
    dueEpochMs,
    nextEpochMs,
    heldEpochMs: held.find((at) => at >= dueEpochMs - earlyMs && at < nextEpochMs - earlyMs) ?? null,
    lastEpochMs: held.at(-1) ?? null,
  }
}
