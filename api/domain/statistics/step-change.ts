import { mean } from './spread.ts'

/** A change of level somewhere in a series of independent values. */
export interface StepChange {
  /** Number of values before the step. */
  readonly before: number
  readonly meanBefore: number
  readonly meanAfter: number
  /** Pettitt's statistic K and the approximate p of as large a one without any step. */
  readonly statistic: number
  readonly pApproximate: number
}

/**
 * Pettitt's (1979) rank test for one change of level: where it lies and how seldom chance does as much.
 * Null for fewer than two values. As with any such test, values that hang together make p too small.
 */
export function findStepChange(values: readonly number[]): StepChange | null {
  const count = values.length
  if (count < 2) return null
  let running = 0
  let statistic = -1
  let before = 1
  for (let at = 0; at < count - 1; at++) {
    for (const value of values) running += Math.sign((values[at] as number) - value)
    if (Math.abs(running) > statistic) {
      statistic = Math.abs(running)
      before = at + 1
    }
  }
  return {
    before,
    meanBefore: mean(values.slice(0, before)),
    meanAfter: mean(values.slice(before)),
    statistic,
    pApproximate: Math.min(1, 2 * Math.exp((-6 * statistic ** 2) / (count ** 3 + count ** 2))),
  }
}
