import { groupBy } from '../group-by.ts'
import type { CoverageTestRow } from '../site/tables.ts'
import type { FactorShare } from './network-plan.ts'

/** Delivered share from which on a factor counts as good enough to send at. */
export const goodShare = 0.9

export interface TestedFactor {
  readonly logger: string
  readonly spreadingFactor: number
  /** received / sent at it. */
  readonly share: number
}

/**
 * Factor that each tested logger would send at: the fastest with at least `goodShare` of its newest test's packets, else the
 * one that delivered most. Loggers without a test are not guessed.
 */
export function factorsFromTests(tests: readonly CoverageTestRow[]): readonly TestedFactor[] {
  const tested = tests.filter((row) => row.logger !== null && row.sent > 0)
  return [...groupBy(tested, (row) => row.logger as string)].map(([logger, rows]) => {
    const newest = Math.max(...rows.map((row) => row.at))
    const shares = rows
      .filter((row) => row.at === newest)
      .map((row) => ({ logger, spreadingFactor: row.spreadingFactor, share: row.received / row.sent }))
      .toSorted((one, other) => one.spreadingFactor - other.spreadingFactor)
    const best = shares.toSorted((one, other) => other.share - one.share)[0]
    return (shares.find(({ share }) => share >= goodShare) ?? best) as TestedFactor
  })
}

/** The mix that such factors make; empty of no tests. */
export function mixOf(factors: readonly TestedFactor[]): readonly FactorShare[] {
  return [...groupBy(factors, (one) => one.spreadingFactor)]
    .map(([spreadingFactor, loggers]) => ({ spreadingFactor, share: loggers.length / factors.length }))
    .toSorted((one, other) => one.spreadingFactor - other.spreadingFactor)
}
