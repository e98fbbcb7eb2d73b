export interface CusumChart {
  /** Sums above the target and below it, after each value; neither is ever negative. */
  readonly upper: readonly number[]
  readonly lower: readonly number[]
  /** Place of the first value after which a sum exceeds the decision interval; null: none does. */
  readonly firstSignal: number | null
}

/**
 * Tabular cumulative sums of what exceeds `target` by more than `slack` either way (Page 1954; Montgomery):
 * small lasting shifts add up where single values hide them. `headStart` is where both sums begin (Lucas and
 * Crosier 1982: half the decision interval answers faster to a shift that is there from the first). All in one unit.
 */
export function cusumChart(
  values: readonly number[],
  {
    target,
    slack,
    decision,
    headStart = 0,
  }: {
    readonly target: number
    readonly slack: number
    readonly decision: number
    readonly headStart?: number
  },
): CusumChart {
  const upper: number[] = []
  const lower: number[] = []
  let firstSignal: number | null = null
  for (const [at, value] of values.entries()) {
    upper.push(Math.max(0, (upper.at(-1) ?? headStart) + value - target - slack))
    lower.push(Math.max(0, (lower.at(-1) ?? headStart) + target - slack - value))
    const signals = Math.max(upper[at] as number, lower[at] as number) > decision
    if (signals && firstSignal === null) firstSignal = at
  }
  return { upper, lower, firstSignal }
}

export interface EwmaChart {
  readonly averages: readonly number[]
  /** Limits that the averages settle to, `sigmas` away from the target. */
  readonly upperLimit: number
  readonly lowerLimit: number
}

/**
 * Exponentially weighted moving average, each new value with weight λ in (0, 1] (NIST/SEMATECH e-Handbook
 * 6.3.2.4): z = λx + (1 − λ)z before, from the target; limits for independent values of one standard deviation.
 */
export function ewmaChart(
  values: readonly number[],
  {
    target,
    weight,
    standardDeviation,
    sigmas = 3,
  }: {
    readonly target: number
    readonly weight: number
    readonly standardDeviation: number
    readonly sigmas?: number
  },
): EwmaChart {
  const averages: number[] = []
  for (const value of values) averages.push(weight * value + (1 - weight) * (averages.at(-1) ?? target))
  const away = sigmas * standardDeviation * Math.sqrt(weight / (2 - weight))
  return { averages, upperLimit: target + away, lowerLimit: target - away }
}
