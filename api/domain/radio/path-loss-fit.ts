import { accept, type Outcome, reject } from '../outcome.ts'
import { curvature, maximise } from '../statistics/maximise.ts'
import { normalTail } from '../statistics/normal-tail.ts'
import { studentTail } from '../statistics/student-t.ts'
import { logDensityOf } from './residual-density.ts'

/** What one spot says of a gateway: signal with the loss over edges added back, so that distance alone is left. */
export interface DistanceSignal {
  readonly distanceMetres: number
  readonly clearSignalDbm: number
  /** True where the signal was that or weaker: few or no packets came through. */
  readonly atMost: boolean
  /** True inside the outline of an excavation, among walls, struts and plant. */
  readonly inWorks: boolean
}

export interface WorksLoss {
  readonly lossDb: number
  readonly standardErrorDb: number
  readonly spots: number
}

/** Signal = signal at 10 m − 10 · exponent · log10(distance / 10 m), about which spots lie with a spread. */
export interface PathLossFit {
  readonly signalAt10MetresDbm: number
  readonly exponent: number
  /** Scale of the residuals: their standard deviation where `degreesOfFreedom` is infinite. */
  readonly spreadDb: number
  readonly standardErrors: { readonly signalAt10MetresDb: number; readonly exponent: number }
  readonly covariance: number
  /** What places inside the outline of an excavation lose besides, dB; null where it was neither found nor given. */
  readonly worksLoss: WorksLoss | null
  /** Of the distribution of the residuals: 2 lets single spots lie very far off; infinite: normal. */
  readonly degreesOfFreedom: number
  readonly measuredSpots: number
  readonly boundedSpots: number
}

const referenceMetres = 10
/** A cabinet, steel or a parked machine beside one spot in twenty takes 50 dB: tails are heavy. */
const ofSpots = 2
const fewestSpots = 5
const fewestEach = 3

/** Decades of distance from the reference. */
export const decadesFrom10Metres = (distanceMetres: number): number =>
  Math.log10(Math.max(1, distanceMetres) / referenceMetres)

/**
 * Fits how a gateway's signal falls off with distance by greatest likelihood, residuals after Student's t: least squares, in
 * which spots far off weigh little, and exactly least squares where `degreesOfFreedom` is infinite. A spot of which is known
 * only that its signal was weaker counts with the chance of that (Tobin 1958, Econometrica 26:24–36). `worksLoss`: what
 * places inside an excavation lose besides; `find` where at least 3 spots lie inside and 3 outside. Refused with fewer
 * than 5 measured spots, where the farthest is not twice as far as the nearest, and where the exponent comes out below 1
 * or above 6, or with a standard error above 1: then the spots do not say how it falls off.
 */
export function fitPathLoss(
  signals: readonly DistanceSignal[],
  worksLoss: WorksLoss | 'find' | null = null,
  degreesOfFreedom = ofSpots,
): Outcome<PathLossFit> {
  const measured = signals.filter(({ atMost }) => !atMost)
  const distances = measured.map(({ distanceMetres }) => distanceMetres)
  if (measured.length < fewestSpots)
    return refuse(
      `Only ${measured.length} spots with a signal; ${fewestSpots} are needed for a fit of its own.`,
    )
  if (Math.max(...distances) < 2 * Math.min(...distances))
    return refuse('All spots lie about as far away: they do not say how the signal falls off.')
  const inside = signals.filter(({ inWorks }) => inWorks).length
  const finds = worksLoss === 'find' && inside >= fewestEach && signals.length - inside >= fewestEach
  const known = worksLoss === 'find' || worksLoss === null ? 0 : worksLoss.lossDb
  const rows = signals.map(({ distanceMetres, clearSignalDbm, atMost, inWorks }) => ({
    decades: decadesFrom10Metres(distanceMetres),
    signal: clearSignalDbm + (inWorks ? known : 0),
    works: inWorks ? 1 : 0,
    atMost,
  }))
  const density = logDensityOf(degreesOfFreedom)
  const likelihood = ([level, exponent, logSpread, loss = 0]: readonly number[]) => {
    const spread = Math.exp(logSpread as number)
    return rows.reduce((sum, { decades, signal, works, atMost }) => {
      const fitted = (level as number) - 10 * (exponent as number) * decades - loss * works
      const residual = (signal - fitted) / spread
      const own = atMost
        ? Math.log(below(residual, degreesOfFreedom))
        : density(residual) - (logSpread as number)
      return sum + own
    }, 0)
  }
  const mean = rows.reduce((sum, { signal }) => sum + signal, 0) / rows.length
  const middle = rows.reduce((sum, { decades }) => sum + decades, 0) / rows.length
  const extra = finds ? [0] : []
  const best = maximise(
    likelihood,
    [mean + 30 * middle, 3, Math.log(8), ...extra],
    [5, 0.5, 0.5, ...extra.map(() => 5)],
  )
  const [signalAt10MetresDbm, exponent, logSpread, loss] = best as [number, number, number, number?]
  if (!(exponent >= 1 && exponent <= 6))
    return refuse(
      `The exponent comes out as ${exponent.toFixed(1)}: the spots do not say how the signal falls off with distance.`,
    )
  const small = 1e-3 * Math.exp(logSpread)
  const steps = [small, small / 10, 1e-3, ...extra.map(() => small)]
  const covariances = inverseOf(curvature(likelihood, best, steps).map((row) => row.map((one) => -one)))
  if (!covariances) return refuse('The spots do not tell level and exponent apart.')
  const exponentError = Math.sqrt(covariances[1]?.[1] as number)
  if (exponentError > 1)
    return refuse(
      `The exponent comes out with a standard error of ${exponentError.toFixed(1)}: the spots do not say how the signal falls off with distance.`,
    )
  // Greatest likelihood divides by the number of spots; what was fitted was taken out of them.
  const unbiased = measured.length / Math.max(1, measured.length - 2 - extra.length)
  const errorOf = (at: number) => Math.sqrt((covariances[at]?.[at] as number) * unbiased)
  return accept({
    signalAt10MetresDbm,
    exponent,
    spreadDb: Math.exp(logSpread) * Math.sqrt(unbiased),
    standardErrors: { signalAt10MetresDb: errorOf(0), exponent: errorOf(1) },
    covariance: (covariances[0]?.[1] as number) * unbiased,
    worksLoss:
      loss === undefined
        ? worksLoss === 'find'
          ? null
          : worksLoss
        : { lossDb: loss, standardErrorDb: errorOf(3), spots: inside },
    degreesOfFreedom,
    measuredSpots: measured.length,
    boundedSpots: signals.length - measured.length,
  })
}

const below = (residual: number, degreesOfFreedom: number) =>
  Number.isFinite(degreesOfFreedom) ? studentTail(-residual, degreesOfFreedom) : normalTail(-residual)

/** Inverse of a small positive matrix by elimination; null where it is not positive. */
function inverseOf(matrix: readonly (readonly number[])[]): readonly (readonly number[])[] | null {
  const size = matrix.length
  const rows = matrix.map((row, at) => [...row, ...row.map((_, column) => (column === at ? 1 : 0))])
  for (const [at, row] of rows.entries()) {
    const pivot = row[at] as number
    if (!(pivot > 0)) return null
    for (const [column, value] of row.entries()) row[column] = value / pivot
    for (const other of rows) {
      if (other === row) continue
      const share = other[at] as number
      for (const [column, value] of row.entries()) other[column] = (other[column] as number) - share * value
    }
  }
  return rows.map((row) => row.slice(size))
}

const refuse = (message: string) => reject({ code: 'path-loss-undetermined', message })
