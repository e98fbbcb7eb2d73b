import { accept, type Outcome, reject } from '../outcome.ts'
import { fitLine, type LineFit } from '../statistics/least-squares.ts'

/**
 * Instant at which an accelerating movement would run away: where the line through 1/v falls to 0 (Fukuzono 1985,
 * α = 2). Give only the accelerating part; rates in any one unit, all of one sign. Refused where a rate is 0 or
 * turns, or where 1/v does not fall, because then nothing runs away. A projection, not a forecast: state its fit.
 * `inverseRate` is the line through 1/v, of time since the first rate.
 */
export function failureInstant(
  atEpochMs: readonly number[],
  rates: readonly number[],
): Outcome<{ readonly atEpochMs: number; readonly rSquared: number; readonly inverseRate: LineFit }> {
  if (
    rates.length === 0 ||
    !rates.every((rate) => rate !== 0 && Math.sign(rate) === Math.sign(rates[0] ?? 0))
  )
    return reject({
      code: 'rates-turn',
      message: 'The rates are not all of one sign; give the accelerating part of the movement only.',
    })
  const start = atEpochMs[0] ?? 0
  const fit = fitLine(
    atEpochMs.map((at) => at - start),
    rates.map((rate) => 1 / Math.abs(rate)),
  )
  if (!fit.ok) return fit
  if (fit.value.slope >= 0)
    return reject({
      code: 'not-accelerating',
      message: 'The rates do not grow: the inverse of the rate does not fall, so no instant can be stated.',
      value: String(fit.value.slope),
    })
  return accept({
    atEpochMs: start - fit.value.intercept / fit.value.slope,
    rSquared: fit.value.rSquared,
    inverseRate: fit.value,
  })
}
