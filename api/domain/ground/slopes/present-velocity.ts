import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitLine, type LineFit } from '../../statistics/least-squares.ts'
import { studentQuantile } from '../../statistics/student-t.ts'
import { type Analysis, estimated, given } from '../analysis.ts'
import { type MovementReading, movementsInOrder } from './movement-reading.ts'
import { type VelocityClass, velocityClass } from './velocity-class.ts'

export interface PresentVelocity extends Analysis<MovementReading> {
  readonly mmPerDay: number
  readonly standardErrorMmPerDay: number
  /** Of the line's interval of 95 %, from slow to fast; one class where both agree. */
  readonly classes: readonly [slowest: VelocityClass, fastest: VelocityClass]
  /** Movement against days since the first reading used. */
  readonly line: LineFit
}

/**
 * Velocity over a window up to the last reading, by a straight line, with its class (Cruden and Varnes 1996). Refused with
 * fewer than four readings: a velocity of three has no error worth the name.
 */
export function presentVelocity(
  readings: readonly MovementReading[],
  fromEpochMs: number,
): Outcome<PresentVelocity> {
  const { used, leftOut } = movementsInOrder(readings, fromEpochMs)
  const [first, last] = [used[0], used.at(-1)]
  if (!first || !last || used.length < 4)
    return reject({
      code: 'readings-too-few',
      value: String(used.length),
      expected: 'four readings or more in the window',
      message: `A velocity needs four readings in its window; there are ${used.length}. Take a longer window.`,
    })
  const fit = fitLine(
    used.map(({ atEpochMs }) => (atEpochMs - first.atEpochMs) / 86_400_000),
    used.map(({ movementMm }) => movementMm),
  )
  if (!fit.ok) return fit
  const { slope, slopeStandardError } = fit.value
  const reach = studentQuantile(0.975, used.length - 2) * slopeStandardError
  const [slow, fast] = [Math.max(0, Math.abs(slope) - reach), Math.abs(slope) + reach]
  const classes = [velocityClass(slow / 86_400), velocityClass(fast / 86_400)] as const
  const named =
    classes[0] === classes[1] ? classes[0].name : `between ${classes[0].name} and ${classes[1].name}`
  return accept({
    used,
    leftOut,
    method: `Straight line through ${used.length} readings; classes of velocity of Cruden and Varnes 1996.`,
    parameters: [given('window', (last.atEpochMs - first.atEpochMs) / 86_400_000, 'd')],
    found: [estimated('velocity', slope, 'mm/d', slopeStandardError)],
    remarks: [
      `Velocity class: ${named}. It names how fast, not how much danger.`,
      ...(Math.abs(slope) <= reach ? ['The velocity is not told from none by these readings.'] : []),
      'One line hides acceleration within the window; readings close in time depend on each other, and the interval is then too narrow.',
    ],
    mmPerDay: slope,
    standardErrorMmPerDay: slopeStandardError,
    classes,
    line: fit.value,
  })
}
