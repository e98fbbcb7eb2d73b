import { wallReading } from '../roster/wall-clock.ts'
import type { ReviewCase } from './review-case.ts'

/** An instant by the clocks of the site to the minute, such as 2027-08-12 14:05. */
export function wallInstantText({ timeZone }: Pick<ReviewCase, 'timeZone'>, atEpochMs: number): string {
  const { day, minute } = wallReading(atEpochMs, timeZone)
  const two = (number: number) => String(number).padStart(2, '0')
  return `${new Date(day * 86_400_000).toISOString().slice(0, 10)} ${two(Math.floor(minute / 60))}:${two(minute % 60)}`
}
