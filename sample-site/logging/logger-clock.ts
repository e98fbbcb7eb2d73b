import { programme } from '../models/programme.ts'

/** The instants at which a logger reads, and what its clock says then. */
export interface Scans {
  readonly stampEpochMs: Float64Array
  readonly trueEpochMs: Float64Array
}

/** How much LG-08's clock gains. */
const gainSecondsPerDay = 41

/** Every scan of a logger from `fromEpochMs` to the end of the readings, on the whole interval of its own clock. */
export function scanTimes(logger: string, intervalMinutes: number, fromEpochMs: number): Scans {
  const interval = intervalMinutes * 60_000
  const stamps: number[] = []
  const instants: number[] = []
  const first = Math.ceil(Math.max(fromEpochMs, programme.startsAt) / interval) * interval
  for (let stamp = first; stamp < programme.endsAt; stamp += interval) {
    const instant = logger === 'LG-08' ? instantOfFastClock(stamp) : stamp
    if (instant === null) continue
    stamps.push(stamp)
    instants.push(instant)
  }
  return { stampEpochMs: Float64Array.from(stamps), trueEpochMs: Float64Array.from(instants) }
}

/** Null for stamps that the clock skipped when it was set back to UTC. */
function instantOfFastClock(stampEpochMs: number): number | null {
  const { fastClockFrom, fastClockUntil } = programme
  if (stampEpochMs <= fastClockFrom) return stampEpochMs
  const instant = fastClockFrom + (stampEpochMs - fastClockFrom) / (1 + gainSecondsPerDay / 86_400)
  if (instant < fastClockUntil) return instant
  return stampEpochMs >= fastClockUntil ? stampEpochMs : null
}
