import type { LevelRemark, WatchedSeries } from './judge-level.ts'
import { isAboveNoise } from './level-above-noise.ts'
import type { LevelDraft } from './level-change.ts'
import { watchedQuantity } from './level-words.ts'
import { watchedBy } from './watched-by.ts'

/** Two-sided 95 % of a normal distribution. */
const coverage = 1.96

/**
 * Whether noise alone may reach a level. The smallest change that two readings show is 1.96·√2·u (95 % confidence) of
 * the series' standard uncertainty u; a difference of two series has √2 of it. The slope of a line through n readings
 * evenly over a window W has the standard uncertainty u·√(12/n)/W (ordinary least squares, large n). In a change and a
 * rate only what is independent from reading to reading counts; where that is not known the whole does, the wide side,
 * which warns and does not refuse. Else a level no larger than u, the repeatability, is refused.
 */
export function judgeNoise(level: LevelDraft, series: WatchedSeries): readonly LevelRemark[] {
  const kind = watchedBy(level)
  if (kind === 'silence' || kind === 'combination') return []
  const inChange = kind === 'change' || kind === 'rate'
  const u = inChange ? (series.independent ?? series.standardUncertainty) : series.standardUncertainty
  if (u === null || u === 0) return []
  const spread =
    kind === 'rate' ? slopeUncertainty(u, level, series) : kind === 'difference' ? u * Math.SQRT2 : u
  const detectable = coverage * (kind === 'rate' ? 1 : Math.SQRT2) * spread
  const quantity = (value: number) => watchedQuantity(level, Number(value.toPrecision(2)), series.unit)
  if (!isAboveNoise(level.value, spread) && !(inChange && series.independent === null))
    return [
      {
        severity: 'fault',
        code: 'below-repeatability',
        sentence: `It lies within the standard uncertainty of what it watches, ${quantity(spread)}: noise alone reaches it. Set it further out.`,
      },
    ]
  if (isAboveNoise(level.value, detectable)) return []
  return [
    {
      severity: 'warning',
      code: 'inside-detectable-change',
      sentence: `It lies inside the smallest change that can be told from noise, ${quantity(detectable)} (95 % confidence): noise may reach it.`,
    },
  ]
}

function slopeUncertainty(
  u: number,
  { windowMinutes }: LevelDraft,
  { intervalMinutes }: WatchedSeries,
): number {
  const minutes = windowMinutes ?? 0
  return (u * Math.sqrt(12 / Math.max(3, minutes / intervalMinutes))) / (minutes / 1440)
}
