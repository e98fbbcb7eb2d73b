import { monthWords } from '#domain/calendar-words.ts'
import { offsetMs } from '../../ui/format-instant.ts'

export interface TimeTick {
  readonly atEpochMs: number
  readonly text: string
  /** True where a larger unit begins (day among hours, month among days): drawn stronger. */
  readonly strong: boolean
}

const minuteMs = 60_000
const hourMs = 60 * minuteMs
const dayMs = 24 * hourMs
const hourSteps = [5 * minuteMs, 15 * minuteMs, 30 * minuteMs, hourMs, 3 * hourMs, 6 * hourMs, 12 * hourMs]
const dayOfMonthSteps = [1, 2, 5, 10, 15]

/** Ticks on the site's own clock: whole hours, days or months there, at most `most` of them. */
export function timeTicks(
  fromEpochMs: number,
  untilEpochMs: number,
  most: number,
  timeZone: string,
): readonly TimeTick[] {
  const span = untilEpochMs - fromEpochMs
  if (!(span > 0)) return []
  const room = Math.max(2, most)
  const step = hourSteps.find((one) => span / one <= room)
  if (step !== undefined) return hourTicks(fromEpochMs, untilEpochMs, step, timeZone)
  const days = dayOfMonthSteps.find((one) => span / dayMs / one <= room)
  if (days !== undefined) return dayTicks(fromEpochMs, untilEpochMs, days, timeZone)
  const months = [1, 2, 3, 6, 12, 24, 60].find((one) => span / (30.4 * dayMs) / one <= room) ?? 120
  return monthTicks(fromEpochMs, untilEpochMs, months, timeZone)
}

function hourTicks(from: number, until: number, step: number, timeZone: string): TimeTick[] {
  const ticks: TimeTick[] = []
  let wall = Math.ceil((from + offsetMs(from, timeZone)) / step) * step
  for (; ; wall += step) {
    const at = fromWall(wall, timeZone)
    if (at > until) return ticks
    const date = new Date(wall)
    const midnight = wall % dayMs === 0
    if (at >= from)
      ticks.push({
        atEpochMs: at,
        text: midnight ? dayText(date) : date.toISOString().slice(11, 16),
        strong: midnight,
      })
  }
}

function dayTicks(from: number, until: number, days: number, timeZone: string): TimeTick[] {
  const ticks: TimeTick[] = []
  let wall = Math.ceil((from + offsetMs(from, timeZone)) / dayMs) * dayMs
  for (; ; wall += dayMs) {
    const at = fromWall(wall, timeZone)
    if (at > until) return ticks
    const date = new Date(wall)
    const day = date.getUTCDate()
    // Counted within the month, so that its first day is always there and the 31st never beside it.
    const onStep = (day - 1) % days === 0 && (day === 1 || 32 - day > days / 2)
    if (onStep && at >= from) ticks.push({ atEpochMs: at, text: dayText(date), strong: day === 1 })
  }
}

function monthTicks(from: number, until: number, months: number, timeZone: string): TimeTick[] {
  const ticks: TimeTick[] = []
  const first = new Date(from + offsetMs(from, timeZone))
  let month = Math.floor((first.getUTCFullYear() * 12 + first.getUTCMonth()) / months) * months
  for (; ; month += months) {
    const wall = Date.UTC(Math.floor(month / 12), month % 12, 1)
    const at = fromWall(wall, timeZone)
    if (at > until) return ticks
    const january = month % 12 === 0
    const text =
      january || ticks.length === 0 ? `${monthName(wall)} ${Math.floor(month / 12)}` : monthName(wall)
    if (at >= from) ticks.push({ atEpochMs: at, text, strong: january })
  }
}

/** Instant at which the site's clock shows a wall time; of a repeated hour, the first. */
function fromWall(wall: number, timeZone: string): number {
  const guess = wall - offsetMs(wall - dayMs / 2, timeZone)
  return wall - offsetMs(guess, timeZone)
}

const monthName = (wall: number) => monthWords[new Date(wall).getUTCMonth()] ?? ''

const dayText = (date: Date) => `${date.getUTCDate()} ${monthName(date.getTime())}`
