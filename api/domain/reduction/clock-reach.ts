import { addedMs, type ClockSetting, type ClockStretch, clockStretches } from './logger-clock.ts'

/** A stretch of time; until is exclusive. */
export interface Stretch {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

const dayMs = 86_400_000

/** Instants among which readings stamped within a stretch stand, by any of some clocks; the stretch itself among them. */
export function instantsOfStamps(
  clocks: Iterable<readonly ClockSetting[]>,
  { fromEpochMs, untilEpochMs }: Stretch,
): Stretch {
  let [from, until] = [fromEpochMs, untilEpochMs]
  for (const settings of clocks)
    for (const { setting, ...stretch } of clockStretches(settings)) {
      const first = Math.max(stretch.fromEpochMs, fromEpochMs)
      const end = Math.min(stretch.untilEpochMs, untilEpochMs)
      if (setting === null || first >= end) continue
      from = Math.min(from, first + addedMs(setting, first))
      until = Math.max(until, end + addedMs(setting, end))
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
    if (setting === null) return []
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
