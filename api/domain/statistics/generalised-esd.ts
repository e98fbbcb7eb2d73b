import { mean, standardDeviation } from './spread.ts'
import { studentQuantile } from './student-t.ts'

export interface ExtremeDeviates {
  /** How far the furthest value stands off, in standard deviations, as one after the other is taken away. */
  readonly statistics: readonly number[]
  readonly critical: readonly number[]
  /** Places of the values that stand off, furthest first. */
  readonly outliers: readonly number[]
}

/**
 * Rosner's (1983) generalised extreme studentised deviate: up to `most` wild values among otherwise Gaussian,
 * independent ones. The number of them is the LARGEST one that exceeds its critical value, so that wild values
 * which hide each other are found. Values are only pointed out. Sound from about 25 values.
 */
export function extremeDeviates(
  values: readonly number[],
  most: number,
  significance = 0.05,
): ExtremeDeviates {
  const rest = values.map((value, place) => ({ value, place }))
  const statistics: number[] = []
  const critical: number[] = []
  const taken: number[] = []
  for (let round = 0; round < most && rest.length > 2; round++) {
    const left = rest.map(({ value }) => value)
    const middle = mean(left)
    const spread = standardDeviation(left)
    if (!(spread > 0)) break
    const away = left.map((value) => Math.abs(value - middle))
    const furthest = away.indexOf(Math.max(...away))
    statistics.push((away[furthest] as number) / spread)
    critical.push(criticalValue(left.length, significance))
    taken.push(...rest.splice(furthest, 1).map(({ place }) => place))
  }
  const count = statistics.findLastIndex((statistic, at) => statistic > (critical[at] as number)) + 1
  return { statistics, critical, outliers: taken.slice(0, count) }
}

function criticalValue(count: number, significance: number): number {
  const t = studentQuantile(1 - significance / (2 * count), count - 2)
  return ((count - 1) * t) / Math.sqrt((count - 2 + t * t) * count)
}
