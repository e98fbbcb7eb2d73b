import { dayMs, hourMs, programme } from '../models/programme.ts'

export interface Week {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

/** The weeks of the readings, Monday to Monday UTC; the last ends with the readings. */
export function weeks(): readonly Week[] {
  const list: Week[] = []
  for (let from: number = programme.startsAt; from < programme.endsAt; from += 7 * dayMs)
    list.push({ fromEpochMs: from, untilEpochMs: Math.min(from + 7 * dayMs, programme.endsAt) })
  return list
}

/** When the file of a week arrives: some hours after it ends, the last one at the end of the readings. */
export const arrival = (week: Week, hoursAfter: number): number =>
  Math.min(week.untilEpochMs + Math.round(hoursAfter * hourMs), programme.endsAt)
