import { inForceOf } from '#domain/levels/value-levels.ts'
import { watchedBy } from '#domain/levels/watched-by.ts'
import type { Stage, TriggerLevel } from '#domain/site/tables.ts'
import type { WatchedOfSeries } from '#domain/site/vocabulary.ts'

/** Which levels are listed; empty text or null: any. */
export interface LevelFilter {
  /** Part of the series' or the level's name, in any case. */
  readonly name: string
  readonly measure: string
  readonly stage: string
  readonly level: number | null
  readonly kind: WatchedOfSeries | ''
  readonly inForceOnly: boolean
}

export const everyLevel: LevelFilter = {
  name: '',
  measure: '',
  stage: '',
  level: null,
  kind: '',
  inForceOnly: true,
}

/** Whether a level applies at an instant, and if not, why. */
export type LevelStanding = 'in force' | 'not yet' | 'ended' | 'stage not on'

export function levelStanding(
  level: TriggerLevel,
  stages: readonly Stage[],
  atEpochMs: number,
): LevelStanding {
  const { validFrom, validUntil } = level
  if (atEpochMs < validFrom) return 'not yet'
  if (validUntil !== null && atEpochMs >= validUntil) return 'ended'
  const stretch = inForceOf(level, stages)
  const on =
    stretch !== null &&
    stretch.fromEpochMs <= atEpochMs &&
    (stretch.untilEpochMs === null || atEpochMs < stretch.untilEpochMs)
  return on ? 'in force' : 'stage not on'
}

/** The levels that a filter wants, in order of their series and numbers. */
export function listedLevels(
  levels: readonly TriggerLevel[],
  stages: readonly Stage[],
  filter: LevelFilter,
  atEpochMs: number,
): readonly TriggerLevel[] {
  const wanted = filter.name.trim().toLowerCase()
  return levels
    .filter(
      (level) =>
        (wanted === '' || `${level.series} ${level.id}`.toLowerCase().includes(wanted)) &&
        (filter.measure === '' || measureOf(level) === filter.measure) &&
        (filter.stage === '' || level.stage === filter.stage) &&
        (filter.level === null || level.level === filter.level) &&
        (filter.kind === '' || watchedBy(level) === filter.kind) &&
        (!filter.inForceOnly || levelStanding(level, stages, atEpochMs) === 'in force'),
    )
    .toSorted(
      (one, other) =>
        compare(one.series, other.series) || one.level - other.level || one.validFrom - other.validFrom,
    )
}

export const measureOf = ({ series }: Pick<TriggerLevel, 'series'>): string =>
  series.slice(series.lastIndexOf('/') + 1)

const compare = (one: string, other: string): number =>
  one.localeCompare(other, 'en', { numeric: true, sensitivity: 'base' })
