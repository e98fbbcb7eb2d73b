import { judge } from './judge.ts'
import type { JudgedLevel } from './levels-in-force.ts'

/** How long a value must stand before the level of its series changes. */
export interface Holding {
  /** Readings in a row that must agree; 1: the first counts. */
  readonly readings: number
  /** Time from the first of them to the last that must have passed as well; 0: none. */
  readonly holdMs: number
  /** How far behind a level a value must fall, as a share of it (0.1: below 0.9 of it), before the level is left. */
  readonly hysteresis: number
  /** Two readings further apart do not belong to one run; Infinity: any do. */
  readonly longestGapMs: number
}

/** Every reading counts at once, as it stands. */
export const heldAtOnce: Holding = {
  readings: 1,
  holdMs: 0,
  hysteresis: 0,
  longestGapMs: Number.POSITIVE_INFINITY,
}

/** The level held after a reading, and the runs that are on the way to another. Plain data: kept between readings. */
export interface HeldLevel {
  readonly level: number
  readonly lastEpochMs: number | null
  /** True where the last reading has no value or came after a gap: nothing is known of the time between. */
  readonly interrupted: boolean
  /** For each level above the one held, the readings in a row that have reached it. */
  readonly rising: readonly Run[]
  readonly falling: Run | null
}

interface Run {
  readonly level: number
  readonly sinceEpochMs: number
  readonly readings: number
}

export const nothingHeld: HeldLevel = {
  level: 0,
  lastEpochMs: null,
  interrupted: false,
  rising: [],
  falling: null,
}

/**
 * The level held after one more reading. It rises to the highest level that a long enough run of readings has
 * reached; it falls one level at a time, once a run has stayed behind the hysteresis of the level held, and that run
 * then begins anew. A gap or a missing value ends every run and changes no level: silence is neither exceedance nor
 * recovery.
 */
export function holdLevel(
  held: HeldLevel,
  reading: { readonly atEpochMs: number; readonly value: number | null },
  levels: readonly JudgedLevel[],
  holding: Holding,
): HeldLevel {
  const { atEpochMs, value } = reading
  const gap = held.lastEpochMs !== null && atEpochMs - held.lastEpochMs > holding.longestGapMs
  const reached = judge(value, levels).level
  if (reached === null || value === null)
    return { ...held, lastEpochMs: atEpochMs, interrupted: true, rising: [], falling: null }
  const before = gap ? { rising: [], falling: null } : held
  const rising = [...new Set(levels.map(({ level }) => level))]
    .filter((level) => level > held.level && level <= reached)
    .map((level) => longer(before.rising.find((run) => run.level === level) ?? null, atEpochMs, level))
  const behind = held.level > 0 && isBehind(value, held.level, levels, holding.hysteresis)
  const falling = behind ? longer(before.falling, atEpochMs, held.level) : null
  const next = { lastEpochMs: atEpochMs, interrupted: gap }
  const risen = Math.max(
    held.level,
    ...rising.filter((run) => isLongEnough(run, atEpochMs, holding)).map(({ level }) => level),
  )
  if (risen > held.level)
    return { ...next, level: risen, rising: rising.filter(({ level }) => level > risen), falling: null }
  if (falling && isLongEnough(falling, atEpochMs, holding))
    return { ...next, level: held.level - 1, rising: [], falling: null }
  return { ...next, level: held.level, rising, falling }
}

const longer = (run: Run | null, atEpochMs: number, level: number): Run =>
  run === null ? { level, sinceEpochMs: atEpochMs, readings: 1 } : { ...run, readings: run.readings + 1 }

const isLongEnough = (run: Run, atEpochMs: number, { readings, holdMs }: Holding): boolean =>
  run.readings >= readings && atEpochMs - run.sinceEpochMs >= holdMs

/** True where no level of this number is reached even when each is brought nearer by the hysteresis. */
function isBehind(
  value: number,
  number: number,
  levels: readonly JudgedLevel[],
  hysteresis: number,
): boolean {
  const nearer = levels
    .filter(({ level }) => level === number)
    .map((level) => ({ ...level, value: level.value - sideOf(level) * hysteresis * Math.abs(level.value) }))
  return (judge(value, nearer).level ?? 0) < number
}

const sideOf = ({ direction, value }: JudgedLevel): number =>
  direction === 'above' ? 1 : direction === 'below' ? -1 : Math.sign(value)
