import { quantityText } from './number-text.ts'
import { periodAt, type UncertaintyPeriod } from './series-uncertainty.ts'
import { changeUncertainty, combine } from './uncertainty.ts'

/** How well the change between two values of one series is known, and what that rests on. */
export interface ChangeUncertainty {
  readonly standardUncertainty: number
  /**
   * `cancels`: what both values share goes out; `not-split`: the share that they do not have in common is not known, so
   * all is held to be; `recalibrated`: they stand under different calibrations or barometers, and nothing
   * goes out.
   */
  readonly basis: 'cancels' | 'not-split' | 'recalibrated'
}

/**
 * Of the difference of the values of a series at two instants (JCGM 100, F.1.2.3: correlated inputs); null where either
 * has no known uncertainty. Wherever it is not known what cancels, nothing does: the wide side.
 */
export function changeBetween(
  periods: readonly UncertaintyPeriod[],
  oneEpochMs: number,
  otherEpochMs: number,
): ChangeUncertainty | null {
  const [one, other] = [periodAt(periods, oneEpochMs), periodAt(periods, otherEpochMs)]
  if (one === null || other === null) return null
  const wide = combine(one.standardUncertainty, other.standardUncertainty)
  if (one.commonSinceEpochMs !== other.commonSinceEpochMs)
    return { standardUncertainty: wide, basis: 'recalibrated' }
  if (one.independent === null || other.independent === null)
    return { standardUncertainty: wide, basis: 'not-split' }
  const standardUncertainty =
    one.independent === other.independent
      ? changeUncertainty(one.independent)
      : combine(one.independent, other.independent)
  return { standardUncertainty, basis: 'cancels' }
}

/** What a person should know of a change between two readings under the calibration in force at an instant. */
export function changeSentence(
  periods: readonly UncertaintyPeriod[],
  atEpochMs: number,
  unit: string,
): string | null {
  const change = changeBetween(periods, atEpochMs, atEpochMs)
  if (change === null) return null
  const size = quantityText(Number(change.standardUncertainty.toPrecision(2)), unit)
  return change.basis === 'cancels'
    ? `A change between two readings under the calibration in force has a standard uncertainty of ${size}: that of calibration and zero is the same in both and cancels, what is anew in each reading counts twice, in quadrature.`
    : `A change between two readings under the calibration in force has a standard uncertainty of at most ${size}: no scatter of zero readings is recorded from which the share that cancels could be told, so all of it is taken as independent, the wide side.`
}
