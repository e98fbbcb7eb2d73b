import { clockWords } from '../corrections/clock-words.ts'
import type { ClockText } from '../corrections/correction.ts'
import type { Outcome } from '../outcome.ts'
import type { BatteryOutlook } from '../power/days-left.ts'
import type { ClockDrift } from './clock-drift.ts'
import type { Consequence } from './consequence.ts'
import type { Completeness } from './logger-day.ts'

/**
 * How a logger stands, the worst first. `heard-in-part`: nothing to look into, but how long its cells last is not known. `no-wiring`: nothing is
 * wired to it, so its silence means nothing.
 */
export const loggerStandings = [
  'silent',
  'never-heard',
  'look-into',
  'heard-in-part',
  'heard',
  'no-wiring',
] as const
export type LoggerStanding = (typeof loggerStandings)[number]

/** What is known of a logger at an instant. */
export interface LoggerKnown {
  readonly wired: boolean
  /** The earlier of stamp and receipt of what came last; null: never heard. */
  readonly lastHeardEpochMs: number | null
  readonly lateAfterMinutes: number | null
  /** Of the last seven days that its lateness does not excuse. */
  readonly completeness: Completeness
  readonly drift: Outcome<ClockDrift>
  /** How its clock is on record; left out: its stamps stand as sent. */
  readonly clockOnRecord?: ClockText | undefined
  /** Null where its battery is not read, or no limit is stated. */
  readonly battery: BatteryOutlook | null
  readonly batteryLimitVolts: number | null
  readonly consequence: Consequence
  readonly calibrationsOverdue: number
}

export interface Remark {
  /** Whole sentence. */
  readonly says: string
  /** Whole sentence. */
  readonly toDo: string
}

export interface LoggerCondition {
  readonly standing: LoggerStanding
  readonly ageMs: number | null
  readonly remarks: readonly Remark[]
}

/** From here on a person should look: common practice, no published source. */
export const lookInto = {
  heldShareBelow: 0.95,
  inTimeShareBelow: 0.9,
  driftSecondsPerDay: 10,
  aheadSeconds: 60,
  batteryDays: 60,
} as const

/** How a logger stands, with a remark for everything that wants a person. */
export function loggerCondition(known: LoggerKnown, atEpochMs: number): LoggerCondition {
  const ageMs = known.lastHeardEpochMs === null ? null : atEpochMs - known.lastHeardEpochMs
  if (!known.wired) return { standing: 'no-wiring', ageMs, remarks: [] }
  const silent = ageMs !== null && known.lateAfterMinutes !== null && ageMs > known.lateAfterMinutes * 60_000
  const remarks = [
    ...ofCompleteness(known.completeness),
    ...ofClock(known.drift, known.clockOnRecord),
    ...ofBattery(known.battery, known.batteryLimitVolts),
    ...(known.calibrationsOverdue > 0
      ? [
          {
            says: `${known.calibrationsOverdue} of its calibrations are past their date.`,
            toDo: 'Have them calibrated, or enter why they may go on.',
          },
        ]
      : []),
  ]
  if (ageMs === null)
    return {
      standing: 'never-heard',
      ageMs,
      remarks: [
        { says: 'It is wired and was never heard.', toDo: 'Commission it, or end its wiring.' },
        ...remarks,
      ],
    }
  if (silent)
    return {
      standing: 'silent',
      ageMs,
      remarks: [{ says: 'It is silent.', toDo: whatSilenceAsks(known) }, ...remarks],
    }
  if (remarks.length > 0) return { standing: 'look-into', ageMs, remarks }
  return { standing: cellsKnown(known.battery) ? 'heard' : 'heard-in-part', ageMs, remarks }
}

/** Cells of a flat chemistry stay level and end within days, so a voltage without a slope tells nothing of their end. */
const cellsKnown = (battery: BatteryOutlook | null): boolean =>
  battery !== null && ['days', 'further-than-seen', 'below-limit'].includes(battery.left.kind)

function whatSilenceAsks({ battery, completeness }: LoggerKnown): string {
  if (battery?.left.kind === 'below-limit') return 'Go there with new cells; fetch its memory by cable.'
  if (completeness.inTimeShare !== null && completeness.inTimeShare < lookInto.inTimeShareBelow)
    return 'It had come and gone before: look for what stands between it and the gateway; fetch its memory by cable.'
  return 'Go there: power, antenna, then fetch its memory by cable. Until then read by hand what is critical.'
}

function ofCompleteness({ due, held, inTime, heldShare, inTimeShare }: Completeness): readonly Remark[] {
  if (heldShare !== null && heldShare < lookInto.heldShareBelow)
    return [
      {
        says: `${due - held} of ${due} readings of its last seven days are missing.`,
        toDo: 'Fetch its memory by cable; if they are in it, the link loses them: repeat the coverage test.',
      },
    ]
  if (inTimeShare !== null && inTimeShare < lookInto.inTimeShareBelow)
    return [
      {
        says: `${due - inTime} of ${due} readings of its last seven days came too late, by another way.`,
        toDo: 'The record is whole, the warning is not: find what stops the link.',
      },
    ]
  return []
}

function ofClock(drift: Outcome<ClockDrift>, onRecord: ClockText | undefined): readonly Remark[] {
  if (!drift.ok) return []
  const recorded = onRecord ? ` On record: ${clockWords(onRecord)}.` : ''
  const { gainSecondsPerDay, interval, leastDelaySeconds } = drift.value
  const away = interval[0] > 0 || interval[1] < 0
  if (leastDelaySeconds < -lookInto.aheadSeconds)
    return [
      {
        says: `Its clock is at least ${Math.round(-leastDelaySeconds)} s ahead: readings are received before they are stamped.${recorded}`,
        toDo: `Set it to UTC at the next visit and write down both times; ${onRecord ? 'end the record at the stamp at which it is set' : 'until then stamps are wrong by that much: try it under What if, and offer it for the record'}.`,
      },
    ]
  if (away && Math.abs(gainSecondsPerDay) >= lookInto.driftSecondsPerDay)
    return [
      {
        says: `Its clock ${gainSecondsPerDay > 0 ? 'gains' : 'loses'} ${Math.abs(gainSecondsPerDay).toFixed(0)} s a day.${recorded}`,
        toDo: `Set it to UTC at the next visit and write down both times${onRecord ? '; end the record at the stamp at which it is set' : ''}.`,
      },
    ]
  return []
}

function ofBattery(battery: BatteryOutlook | null, limitVolts: number | null): readonly Remark[] {
  if (battery === null || limitVolts === null) return []
  const { left } = battery
  if (left.kind === 'below-limit')
    return [
      {
        says: `Its cells are at ${left.volts.toFixed(2)} V, at or below the ${limitVolts} V stated for it.`,
        toDo: 'Change the cells now: it may fall silent at the next transmission.',
      },
    ]
  if (left.kind === 'days' && left.low < lookInto.batteryDays)
    return [
      {
        says: `Its cells reach ${limitVolts} V in ${Math.round(left.low)} to ${Number.isFinite(left.high) ? Math.round(left.high) : 'unknown'} days${left.faster ? '; they fall ever faster' : ''}.`,
        toDo: `Change the cells within ${Math.max(1, Math.floor(left.low))} days.`,
      },
    ]
  return []
}

/** How much hangs on a logger: critical channels before values elsewhere that need it, these before other channels. */
export const weightOf = ({ channels, criticalChannels, dependants }: Consequence): number =>
  1e6 * criticalChannels + 1e3 * dependants + channels
