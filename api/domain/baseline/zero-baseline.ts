import type { Calibration } from '../reduction/chain.ts'
import { runChain } from '../reduction/run-chain.ts'
import type { ZeroReading } from '../site/tables.ts'
import { lagOneAutocorrelation, mean, standardDeviation } from '../statistics/spread.ts'
import { changeFromZeroUncertainty, detectableChange } from './detectable-change.ts'
import { effectiveCount } from './effective-count.ts'

/** What the zero readings of a calibration say of it, in the unit of its values. */
export interface ZeroBaseline {
  readonly count: number
  readonly mean: number
  /** Standard deviation of single readings under the same conditions; null of one reading. */
  readonly repeatability: number | null
  /** Independent readings that they are worth; the lag-one correlation is taken in order of time. */
  readonly effectiveCount: number
  /**
   * Standard uncertainty of the mean; null of one reading, and where all are the same: their scatter then lies
   * below what the reading resolves and is not known to be nothing.
   */
  readonly standardError: number | null
  /**
   * Smallest true change from the mean zero that a single later reading shows at 95 % confidence with 80 % power.
   * Scatter like that of the zero readings is assumed and its estimate taken as exact: a floor, not a promise.
   */
  readonly smallestDetectableChange: number | null
}

/**
 * Of the zero readings of one calibration, each reduced by its own chain with the companions of its row. Null where it
 * has none. The standard error is of the zero, and so of every level: it is common to all values under the calibration
 * and cancels in the change between two of them, but not in a change from the zero itself.
 */
export function zeroBaseline(
  calibration: Pick<Calibration, 'id' | 'steps'>,
  zeroReadings: readonly ZeroReading[],
): ZeroBaseline | null {
  const values = zeroReadings
    .filter((reading) => reading.calibration === calibration.id)
    .toSorted((one, other) => one.at - other.at)
    .flatMap((reading) => runChain(reading.raw, calibration.steps, reading).value ?? [])
  const count = values.length
  if (count === 0) return null
  const alike = values.every((value) => value === values[0])
  const scatter = alike ? 0 : standardDeviation(values)
  const worth = alike ? count : effectiveCount(count, lagOneAutocorrelation(values))
  const known = count > 1 && !alike
  return {
    count,
    mean: mean(values),
    repeatability: count > 1 ? scatter : null,
    effectiveCount: worth,
    standardError: known ? scatter / Math.sqrt(worth) : null,
    smallestDetectableChange: known
      ? detectableChange(changeFromZeroUncertainty(scatter, worth)).detectable
      : null,
  }
}
