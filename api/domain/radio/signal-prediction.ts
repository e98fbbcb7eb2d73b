import { decadesFrom10Metres, type PathLossFit } from './path-loss-fit.ts'
import type { RadioPath } from './radio-site.ts'

/** A signal that is known to a scale: `signalDbm` and residuals of Student's t about it. */
export interface PredictedSignal {
  readonly signalDbm: number
  readonly spreadDb: number
  readonly degreesOfFreedom: number
}

/** Signal at the end of a path by the fit of its gateway, with the spread of the spots and the error of the fit itself. */
export function predictSignal(
  fit: PathLossFit,
  { distanceMetres, lossDb, inWorks }: RadioPath,
): PredictedSignal {
  const decades = decadesFrom10Metres(distanceMetres)
  const { signalAt10MetresDb, exponent } = fit.standardErrors
  const works = inWorks ? fit.worksLoss : null
  const ofFit =
    signalAt10MetresDb ** 2 +
    (10 * decades * exponent) ** 2 -
    20 * decades * fit.covariance +
    (works?.standardErrorDb ?? 0) ** 2
  return {
    signalDbm: fit.signalAt10MetresDbm - 10 * fit.exponent * decades - lossDb - (works?.lossDb ?? 0),
    spreadDb: Math.sqrt(fit.spreadDb ** 2 + Math.max(0, ofFit)),
    degreesOfFreedom: fit.degreesOfFreedom,
  }
}
