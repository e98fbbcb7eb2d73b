import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitCurve } from '../../statistics/curve-fit.ts'
import { fitLine } from '../../statistics/least-squares.ts'
import { drawdownMetres, wellArgument } from './drawdown.ts'

/** Drawdown at an observation well while another is pumped evenly; time in the unit of the rate. */
export interface PumpingTest {
  readonly ratePerTime: number
  readonly radiusMetres: number
  readonly readings: readonly { readonly time: number; readonly drawdownMetres: number }[]
}

export interface PumpingTestResult {
  /** Whole sentence. */
  readonly method: string
  readonly transmissivity: number
  readonly storativity: number
  /** Of ln T and ln S, so about shares; null for a line. */
  readonly relativeStandardErrors: { readonly transmissivity: number; readonly storativity: number } | null
  readonly rootMeanSquareMetres: number
  readonly readingsUsed: number
  /** Readings at u above 0.01, where a straight line does not hold; always 0 for Theis. */
  readonly readingsBeyondLine: number
}

/** Transmissivity and storativity by least squares of Theis's curve, drawdowns of equal weight. */
export function fitTheis(test: PumpingTest): Outcome<PumpingTestResult> {
  const line = fitStraightLine(test)
  if (!line.ok) return line
  const time = test.readings.map((reading) => reading.time)
  const fit = fitCurve(
    (at, [lnT, lnS]) =>
      drawdownMetres(
        { transmissivity: Math.exp(lnT as number), storativity: Math.exp(lnS as number) },
        test.ratePerTime,
        test.radiusMetres,
        at,
      ),
    time,
    test.readings.map((reading) => reading.drawdownMetres),
    [Math.log(line.value.transmissivity), Math.log(line.value.storativity)],
  )
  if (!fit.ok) return fit
  const { parameters, standardErrors, residualSumOfSquares } = fit.value
  return accept({
    method: `Theis's curve by least squares through ${time.length} readings, each of equal weight.`,
    transmissivity: Math.exp(parameters[0] as number),
    storativity: Math.exp(parameters[1] as number),
    relativeStandardErrors: {
      transmissivity: standardErrors[0] as number,
      storativity: standardErrors[1] as number,
    },
    rootMeanSquareMetres: Math.sqrt(residualSumOfSquares / time.length),
    readingsUsed: time.length,
    readingsBeyondLine: 0,
  })
}

/** The same by a straight line of drawdown against the logarithm of time (Cooper and Jacob 1946): give late readings only. */
export function fitStraightLine({
  ratePerTime,
  radiusMetres,
  readings,
}: PumpingTest): Outcome<PumpingTestResult> {
  if (!readings.every((reading) => reading.time > 0) || !(ratePerTime > 0) || !(radiusMetres > 0))
    return reject({
      code: 'pumping-test-unfit',
      message: 'A pumping test needs a rate, a radius and times above 0. Leave out readings before pumping.',
    })
  const fit = fitLine(
    readings.map((reading) => Math.log(reading.time)),
    readings.map((reading) => reading.drawdownMetres),
  )
  if (!fit.ok) return fit
  const { slope, intercept, residualStandardDeviation, count } = fit.value
  if (!(slope > 0))
    return reject({
      code: 'no-drawdown',
      value: String(slope),
      message: 'The drawdown does not grow with time, so no transmissivity follows from it.',
    })
  const transmissivity = ratePerTime / (4 * Math.PI * slope)
  const storativity = (2.25 * transmissivity * Math.exp(-intercept / slope)) / radiusMetres ** 2
  const late = readings.filter(
    (reading) => wellArgument({ transmissivity, storativity }, radiusMetres, reading.time) <= 0.01,
  )
  return accept({
    method: `Straight line of drawdown against the logarithm of time through ${count} readings, ${count - late.length} of them too early for it.`,
    transmissivity,
    storativity,
    relativeStandardErrors: null,
    rootMeanSquareMetres: residualStandardDeviation * Math.sqrt((count - 2) / count),
    readingsUsed: count,
    readingsBeyondLine: count - late.length,
  })
}
