import { groupBy } from '../group-by.ts'
import type { LoggerClock } from '../site/tables.ts'

/** How the stamps of a logger are put right from an instant of its own clock on, until the next begins. */
export interface ClockSetting {
  /** Inclusive, by the stamps that the logger sent. */
  readonly fromEpochMs: number
  /** Added to stamps at `fromEpochMs`: positive where its clock stood behind. */
  readonly addedSeconds: number
  /** Added further for every day of stamps after `fromEpochMs`, at most an hour either way. */
  readonly addedSecondsPerDay: number
}

const dayMs = 86_400_000

/**
 * Settings of every logger that has records of its clock, in order of time and without overlap; before the first, stamps
 * stand as they were sent. Of records that begin together the highest version holds. What only says again what holds
 * already makes no new setting, so that nothing is taken as changed.
 */
export function clocksOf(records: readonly LoggerClock[]): ReadonlyMap<string, readonly ClockSetting[]> {
  const settings = [...groupBy(records, ({ logger }) => logger)].map(([logger, own]) => {
    const holding = own
      .toSorted((one, other) => one.validFrom - other.validFrom || one.version - other.version)
      .filter((one, at, sorted) => one.validFrom !== sorted[at + 1]?.validFrom)
      .map(({ validFrom, addedSeconds, addedSecondsPerDay }) => ({
        fromEpochMs: validFrom,
        addedSeconds,
        addedSecondsPerDay,
      }))
    return [logger, withoutRepeats(holding)] as const
  })
  return new Map(settings.filter(([, own]) => own.length > 0))
}

/** The record by which a stamp of a logger is put right; null: none begins by then, and it stands as it was sent. */
export function clockRecordAt(
  records: readonly LoggerClock[],
  logger: string,
  stampEpochMs: number,
): LoggerClock | null {
  const begun = records.filter((one) => one.logger === logger && one.validFrom <= stampEpochMs)
  return begun.reduce<LoggerClock | null>(
    (held, one) =>
      held === null ||
      one.validFrom > held.validFrom ||
      (one.validFrom === held.validFrom && one.version > held.version)
        ? one
        : held,
    null,
  )
}

/** Settings without those that go on as the one before them would. */
export const withoutRepeats = (settings: readonly ClockSetting[]): readonly ClockSetting[] =>
  settings.filter((one, at) => {
    const held = clockAt(settings.slice(0, at), one.fromEpochMs)
    return one.addedSeconds !== held.addedSeconds || one.addedSecondsPerDay !== held.addedSecondsPerDay
  })

/** What is added to a stamp, and how that grows from there; nothing where no setting holds. */
export function clockAt(
  settings: readonly ClockSetting[],
  stampEpochMs: number,
): Pick<ClockSetting, 'addedSeconds' | 'addedSecondsPerDay'> {
  const held = settingAt(settings, stampEpochMs)
  return held === null
    ? { addedSeconds: 0, addedSecondsPerDay: 0 }
    : { addedSeconds: secondsAt(held, stampEpochMs), addedSecondsPerDay: held.addedSecondsPerDay }
}

/** The setting that holds at a stamp; null: it stands as it was sent. */
export const settingAt = (settings: readonly ClockSetting[], stampEpochMs: number): ClockSetting | null =>
  settings.findLast(({ fromEpochMs }) => fromEpochMs <= stampEpochMs) ?? null

/** Instant of a reading, from the stamp that its logger sent; to the millisecond beyond that of the stamp. */
export const instantOfStamp = (settings: readonly ClockSetting[], stampEpochMs: number): number => {
  const held = settingAt(settings, stampEpochMs)
  return held === null ? stampEpochMs : stampEpochMs + addedMs(held, stampEpochMs)
}

/** Milliseconds that a setting adds to a stamp; a half is rounded up, as `addedMsSql` has it. */
export const addedMs = (setting: ClockSetting, stampEpochMs: number): number =>
  Math.floor(secondsAt(setting, stampEpochMs) * 1000 + 0.5)

/** The same as SQL, of a double of milliseconds, by the same operations in the same order. */
export const addedMsSql = (
  { fromEpochMs, addedSeconds, addedSecondsPerDay }: ClockSetting,
  stampMs: string,
): string =>
  `floor(('${addedSeconds}'::double + '${addedSecondsPerDay}'::double * (${stampMs} - '${fromEpochMs}'::double) / '${dayMs}'::double) * '1000'::double + '0.5'::double)::bigint`

const secondsAt = (
  { fromEpochMs, addedSeconds, addedSecondsPerDay }: ClockSetting,
  stampEpochMs: number,
): number => addedSeconds + (addedSecondsPerDay * (stampEpochMs - fromEpochMs)) / dayMs

/** A stretch of stamps in which one setting holds, or none. */
export interface ClockStretch {
  readonly setting: ClockSetting | null
  /** -Infinity of the first. */
  readonly fromEpochMs: number
  /** Exclusive; Infinity of the last. */
  readonly untilEpochMs: number
}

/** All stamps, parted where settings begin. */
export const clockStretches = (
  settings: readonly ClockSetting[],
): readonly [ClockStretch, ...ClockStretch[]] => [
  {
    setting: null,
    fromEpochMs: Number.NEGATIVE_INFINITY,
    untilEpochMs: settings[0]?.fromEpochMs ?? Number.POSITIVE_INFINITY,
  },
  ...settings.map((setting, at) => ({
    setting,
    fromEpochMs: setting.fromEpochMs,
    untilEpochMs: settings[at + 1]?.fromEpochMs ?? Number.POSITIVE_INFINITY,
  })),
]
