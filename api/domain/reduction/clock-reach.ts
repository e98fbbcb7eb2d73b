import { addedMs, type ClockSetting, type ClockStretch, clockStretches } from './logger-clock.ts'

/** A stretch of time; until is exclusive. */
export interface Stretch {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

const dayMs = 86_400_000

/** Instants among which readings stamped within a stretch stand, by any of some clocks; the stretch itself among them. */
export function instantsOfStamps(clocks: Iterable<readonly ClockSetting[]>, stretch: Stretch): Stretch {
  let { fromEpochMs, untilEpochMs } = stretch
  for (const settings of clocks) {
    const own = instantsByClock(settings, stretch)
    fromEpochMs = Math.min(fromEpochMs, own.fromEpochMs)
    untilEpochMs = Math.max(untilEpochMs, own.untilEpochMs)
  }
  return { fromEpochMs, untilEpochMs }
}

/** Instants among which readings of one logger stamped within a stretch stand, to the milliseconds that are rounded. */
export function instantsByClock(
  settings: readonly ClockSetting[],
  { fromEpochMs, untilEpochMs }: Stretch,
): Stretch {
  let [from, until] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const { setting, ...stretch } of clockStretches(settings)) {
    const first = Math.max(stretch.fromEpochMs, fromEpochMs)
    const end = Math.min(stretch.untilEpochMs, untilEpochMs)
    if (first >= end) continue
    from = Math.min(from, setting === null ? first : first + addedMs(setting, first) - 1)
    until = Math.max(
      until,
      setting === null || end === Number.POSITIVE_INFINITY ? end : end + addedMs(setting, end) + 1,
    )
  }
  return { fromEpochMs: from, untilEpochMs: until }
}

/** Stamps among which readings that stand within a stretch of instants were sent, by any of some clocks; likewise. */
export function stampsOfInstants(clocks: Iterable<readonly ClockSetting[]>, stretch: Stretch): Stretch {
  let { fromEpochMs, untilEpochMs } = stretch
  for (const settings of clocks)
    for (const one of clockStretches(settings)) {
      const sent = stampsWithin(one, stretch)
      if (one.setting === null || sent === null) continue
      fromEpochMs = Math.min(fromEpochMs, sent.fromEpochMs)
      untilEpochMs = Math.max(untilEpochMs, sent.untilEpochMs)
    }
  return { fromEpochMs, untilEpochMs }
}

/** Whether readings of different stretches of a clock can come to stand at one instant; of one stretch none do. */
export function mayMeet(settings: readonly ClockSetting[]): boolean {
  let latest = Number.NEGATIVE_INFINITY
  return clockStretches(settings).some((stretch) => {
    const { fromEpochMs, untilEpochMs } = instantsOf(stretch)
    const meets = fromEpochMs < latest
    latest = Math.max(latest, untilEpochMs)
    return meets
  })
}

/** Instants of a whole stretch of stamps, to the milliseconds that are rounded. */
function instantsOf({ setting, fromEpochMs, untilEpochMs }: ClockStretch): Stretch {
  if (setting === null) return { fromEpochMs, untilEpochMs }
  return {
    fromEpochMs: fromEpochMs + addedMs(setting, fromEpochMs) - 1,
    untilEpochMs: Number.isFinite(untilEpochMs)
      ? untilEpochMs + addedMs(setting, untilEpochMs) + 1
      : untilEpochMs,
  }
}

/**
 * The stamps of a stretch of one setting that come to stand within some instants, at most a second more on either side;
 * null: none does.
 */
export function stampsWithin(
  { setting, fromEpochMs, untilEpochMs }: ClockStretch,
  instants: Stretch,
): Stretch | null {
  const asked =
    setting === null
      ? instants
      : {
          fromEpochMs: stampOf(setting, instants.fromEpochMs) - 1000,
          untilEpochMs: stampOf(setting, instants.untilEpochMs) + 1000,
        }
  const from = Math.max(fromEpochMs, asked.fromEpochMs)
  const until = Math.min(untilEpochMs, asked.untilEpochMs)
  return from < until ? { fromEpochMs: from, untilEpochMs: until } : null
}

/** The stamp that a setting brings to an instant, but for what is rounded. */
function stampOf({ fromEpochMs, addedSeconds, addedSecondsPerDay }: ClockSetting, atEpochMs: number): number {
  const sinceMs = atEpochMs - addedSeconds * 1000 - fromEpochMs
  return fromEpochMs + sinceMs / (1 + (addedSecondsPerDay * 1000) / dayMs)
}

/**
 * Settings as far as readings of a stretch of instants hang on them: those by which readings come into it or go out of
 * it. Where one begins or ends beyond, and does not grow, nothing in the stretch depends on when.
 */
export function clockWithin(
  settings: readonly ClockSetting[],
  { fromEpochMs, untilEpochMs }: Stretch,
): readonly (ClockSetting & { readonly untilEpochMs: number | null })[] {
  return clockStretches(settings).flatMap(({ setting, ...stamps }) => {
    // Where stamps stand as sent is told by where the settings around it end and begin.
    if (setting === null || (setting.addedSeconds === 0 && setting.addedSecondsPerDay === 0)) return []
    const instantOf = (stamp: number) => (Number.isFinite(stamp) ? stamp + addedMs(setting, stamp) : stamp)
    const first = Math.min(stamps.fromEpochMs, instantOf(stamps.fromEpochMs))
    const end = Math.max(stamps.untilEpochMs, instantOf(stamps.untilEpochMs))
    if (first >= untilEpochMs || end <= fromEpochMs) return []
    const isBefore =
      setting.addedSecondsPerDay === 0 &&
      Math.max(stamps.fromEpochMs, instantOf(stamps.fromEpochMs)) <= fromEpochMs
    const isAfter = Math.min(stamps.untilEpochMs, instantOf(stamps.untilEpochMs)) >= untilEpochMs
    return [
      {
        ...setting,
        fromEpochMs: isBefore ? fromEpochMs : setting.fromEpochMs,
        untilEpochMs: isAfter ? null : stamps.untilEpochMs,
      },
    ]
  })
}
