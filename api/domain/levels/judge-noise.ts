import { quantityText } from '../reduction/number-text.ts'
import type { LevelRemark, WatchedSeries } from './judge-level.ts'
import { isAboveNoise } from './level-above-noise.ts'
import type { LevelDraft } from './level-change.ts'
import { watchedBy } from './watched-by.ts'

/** Two-sided 95 % of a normal distribution. */
const coverage = 1.96

/**
 * Whether noise alone may reach a level. The smallest change that two readings show is 1.96·√2·u (95 % confidence) of
 * the series' standard uncertainty u; a difference of two series has √2 of it. The slope of a line through n readings
 * evenly over a window W has the standard uncertainty u·√(12/n)/W (ordinary least squares, large n). A level no larger
 * than u itself, the repeatability, is refused.
 */
export function judgeNoise(level: LevelDraft, series: WatchedSeries): readonly LevelRemark[] {
  const { standardUncertainty: u, unit } = series
  const kind = watchedBy(level)
  if (u === null || u === 0 || kind === 'silence' || kind === 'combination') return []
  const days = (level.windowMinutes ?? 0) / 1440
  const readings = Math.max(3, (level.windowMinutes ?? 0) / series.intervalMinutes)
  const spread =
    kind === 'rate' ? (u * Math.sqrt(12 / readings)) / days : kind === 'difference' ? u * Math.SQRT2 : u
  const detectable = coverage * (kind === 'rate' ? 1 : Math.SQRT2) * spread
  const quantity = (value: number) =>
    `${quantityText(Number(value.toPrecision(2)), unit)}${kind === 'rate' ? ' a day' : ''}`
  if (!isAboveNoise(level.value, spread))
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
