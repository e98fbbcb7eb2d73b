import type { JudgedLevel } from './levels-in-force.ts'

export interface Judgement {
  /** Highest level reached, 0 where none is; null without a value or without levels. */
  readonly level: number | null
  /** Share of the first level used, 0 to …; null where it has no meaning. */
  readonly shareOfFirstLevel: number | null
}

/**
 * Holds a value against the levels in force of its series, all in the series' unit and sign convention.
 *
 * Reached means: `above`: value ≥ level; `below`: value ≤ level; `either`:
 * |value − reference| ≥ |level − reference|. Being exactly on a
 * level has reached it. Judged as it stands: persistence and hysteresis are not applied here.
 *
 * Share is the way gone from `reference` towards the first (lowest-numbered) level:
 * (value − reference) / (level − reference), absolute for `either`, and 0 for a value on the other side of the
 * reference. 1 is on the level. The reference is where nothing has happened: 0 for changes since a zero reading.
 * Where a level does not lie on its own side of the reference (`above` at or under it, `below` at or over it,
 * a level of 0 with reference 0) no share of the way can be stated and it is null; the level is judged all the same.
 * With several first levels (heave and settlement) the greatest share counts.
 */
export function judge(value: number | null, levels: readonly JudgedLevel[], reference = 0): Judgement {
  if (value === null || !Number.isFinite(value) || levels.length === 0)
    return { level: null, shareOfFirstLevel: null }
  const reached = levels.filter((level) => isReached(value, level, reference)).map(({ level }) => level)
  const first = Math.min(...levels.map(({ level }) => level))
  const shares = levels
    .filter(({ level }) => level === first)
    .map((level) => shareOf(value, level, reference))
    .filter((share) => share !== null)
  return {
    level: Math.max(0, ...reached),
    shareOfFirstLevel: shares.length > 0 ? Math.max(...shares) : null,
  }
}

/** True where a value, in the level's unit, has reached it: being exactly on it has. */
export function isReached(
  value: number,
  { direction, value: level }: Pick<JudgedLevel, 'direction' | 'value'>,
  reference = 0,
): boolean {
  if (direction === 'above') return value >= level
  if (direction === 'below') return value <= level
  return Math.abs(value - reference) >= Math.abs(level - reference)
}

function shareOf(value: number, { direction, value: level }: JudgedLevel, reference: number): number | null {
  const whole = level - reference
  const gone = value - reference
  if (direction === 'above') return whole > 0 ? Math.max(0, gone / whole) : null
  if (direction === 'below') return whole < 0 ? Math.max(0, gone / whole) : null
  return whole === 0 ? null : Math.abs(gone / whole)
}

/** The value behind which a level that was reached is left: brought nearer by a share of its own size. */
export function valueToLeave(
  { direction, value }: Pick<JudgedLevel, 'direction' | 'value'>,
  hysteresisShare: number,
): number {
  const side = direction === 'above' ? 1 : direction === 'below' ? -1 : Math.sign(value)
  return value - side * hysteresisShare * Math.abs(value)
}
