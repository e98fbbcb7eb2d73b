import { normalTail } from './normal-tail.ts'
import { mean } from './spread.ts'

/** One change of level, placed where it leaves the least squares. */
export interface MeanChange {
  /** Number of values before the change. */
  readonly before: number
  readonly meanBefore: number
  readonly meanAfter: number
  /** Sums of squares about one mean, and about two. */
  readonly squaresWithout: number
  readonly squaresWith: number
  /** Schwarz's criterion without and with a change: the lower is the better account of the values. */
  readonly criterionWithout: number
  readonly criterionWith: number
  /** Where the change lies at `confidence`, as numbers of values before it; null where it cannot be bounded. */
  readonly interval: readonly [number, number] | null
}

/**
 * The one change of mean in independent values that leaves the least squares, each side keeping `leastRun` values,
 * with Bai's (1997) interval for its place, spread estimated on each side by itself. Null for too few values.
 */
export function findMeanChange(
  values: readonly number[],
  { leastRun = 2, confidence = 0.95 }: { readonly leastRun?: number; readonly confidence?: number } = {},
): MeanChange | null {
  const count = values.length
  if (count < 2 * leastRun || leastRun < 1) return null
  const middle = mean(values)
  const away = values.map((value) => value - middle)
  const squaresWithout = away.reduce((sum, value) => sum + value * value, 0)
  let sum = 0
  let best = -1
  let before = leastRun
  for (let at = 1; at <= count - leastRun; at++) {
    sum += away[at - 1] as number
    const explained = (sum * sum) / at + (sum * sum) / (count - at)
    if (at >= leastRun && explained > best) {
      best = explained
      before = at
    }
  }
  const sides = [values.slice(0, before), values.slice(before)] as const
  const [meanBefore, meanAfter] = [mean(sides[0]), mean(sides[1])]
  const squares = [squaresAbout(sides[0], meanBefore), squaresAbout(sides[1], meanAfter)] as const
  const squaresWith = squares[0] + squares[1]
  return {
    before,
    meanBefore,
    meanAfter,
    squaresWithout,
    squaresWith,
    criterionWithout: criterion(count, squaresWithout, 2),
    criterionWith: criterion(count, squaresWith, 4),
    interval: placeInterval(
      before,
      meanAfter - meanBefore,
      squares[0] / before,
      squares[1] / (count - before),
      confidence,
    ),
  }
}

const squaresAbout = (values: readonly number[], middle: number) =>
  values.reduce((sum, value) => sum + (value - middle) ** 2, 0)

const criterion = (count: number, squares: number, parameters: number) =>
  count * (Math.log(2 * Math.PI) + Math.log(squares / count) + 1) + parameters * Math.log(count)

function placeInterval(
  before: number,
  change: number,
  varianceBefore: number,
  varianceAfter: number,
  confidence: number,
): readonly [number, number] | null {
  const ratio = varianceAfter / varianceBefore
  if (change === 0 || !Number.isFinite(ratio) || ratio === 0) return null
  const tail = (1 - confidence) / 2
  const atChange = placeProbability(0, ratio)
  if (!(atChange > tail && atChange < 1 - tail)) return null
  const scale = varianceBefore / (change * change)
  const high = placeQuantile(1 - tail, ratio) * scale
  const low = placeQuantile(tail, ratio) * scale
  return [before - Math.ceil(high), before - Math.floor(low)]
}

function placeQuantile(probability: number, ratio: number): number {
  let [low, high] = [-1, 1]
  while (placeProbability(low, ratio) > probability) low *= 2
  while (placeProbability(high, ratio) < probability) high *= 2
  for (let round = 0; round < 200 && high - low > 1e-10; round++) {
    const middle = (low + high) / 2
    if (placeProbability(middle, ratio) < probability) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/**
 * Probability that the greatest of a two-sided Wiener process with drift lies at or before x (Bai 1997, appendix;
 * `ratio`: variance after by before). From memory; held against strucchange's interval for the Nile's flow.
 */
function placeProbability(x: number, ratio: number): number {
  const far = Math.abs(x)
  const root = Math.sqrt(far)
  if (x < 0) {
    const share = 1 / ratio
    return (
      -Math.sqrt(far / (2 * Math.PI)) * Math.exp(-far / 8) -
      ((ratio * (ratio + 2)) / (ratio + 1)) *
        scaledTail((share * (1 + share) * far) / 2, (0.5 + share) * root) +
      (far / 2 - 2 + (ratio + 2) ** 2 / (ratio + 1)) * normalTail(root / 2)
    )
  }
  const share = 1 / ratio
  return (
    1 +
    Math.sqrt((share * far) / (2 * Math.PI)) * Math.exp((-share * far) / 8) +
    (share *
      (2 * ratio + 1) *
      scaledTail(((ratio + 1) * far) / 2, ((ratio + 0.5) / Math.sqrt(ratio)) * root)) /
      (ratio + 1) -
    ((2 * ratio + 1) ** 2 / ((ratio + 1) * ratio) - 2 + (share * far) / 2) *
      normalTail((Math.sqrt(share) * root) / 2)
  )
}

/** e^exponent · (1 − Φ(z)), where the one may overflow while the other vanishes. */
function scaledTail(exponent: number, z: number): number {
  const tail = normalTail(z)
  return tail > 0 ? Math.exp(exponent + Math.log(tail)) : 0
}
