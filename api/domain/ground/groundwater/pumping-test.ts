import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitCurve } from '../../statistics/curve-fit.ts'
import { fitLine } from '../../statistics/least-squares.ts'
import { type Analysis, estimated, given, sortOut } from '../analysis.ts'
import { drawdownMetres, wellArgument } from './drawdown.ts'

/** Drawdown at an observation well while another is pumped evenly; time in the unit of the rate. */
export interface PumpingTest {
  readonly ratePerTime: number
  readonly radiusMetres: number
  readonly readings: readonly PumpingReading[]
}

export interface PumpingReading {
  /** Since pumping began. */
  readonly time: number
  readonly drawdownMetres: number
}

export interface PumpingTestResult extends Analysis<PumpingReading> {
  readonly ratePerTime: number
  readonly radiusMetres: number
  readonly transmissivity: number
  readonly storativity: number
  /** Of ln T and ln S, so about shares; null for a line. */
  readonly relativeStandardErrors: { readonly transmissivity: number; readonly storativity: number } | null
  readonly rootMeanSquareMetres: number
  /** Readings at u above 0.01, where a straight line does not hold; always 0 for Theis. */
  readonly readingsBeyondLine: number
}

/** Transmissivity and storativity by least squares of Theis's curve, drawdowns of equal weight. */
export function fitTheis(test: PumpingTest): Outcome<PumpingTestResult> {
  const line = fitStraightLine(test)
  if (!line.ok) return line
  const { used } = line.value
  const time = used.map((reading) => reading.time)
  const fit = fitCurve(
    (at, [lnT, lnS]) =>
      drawdownMetres(
        { transmissivity: Math.exp(lnT as number), storativity: Math.exp(lnS as number) },
        test.ratePerTime,
        test.radiusMetres,
        at,
      ),
    time,
    used.map((reading) => reading.drawdownMetres),
    [Math.log(line.value.transmissivity), Math.log(line.value.storativity)],
  )
  if (!fit.ok) return fit
  const { parameters, standardErrors, residualSumOfSquares } = fit.value
  const [transmissivity, storativity] = [Math.exp(parameters[0] as number), Math.exp(parameters[1] as number)]
  const rootMeanSquareMetres = Math.sqrt(residualSumOfSquares / time.length)
  return accept({
    ...line.value,
    method: `Theis's curve (1935) by least squares through ${time.length} readings, each of equal weight.`,
    found: [
      estimated(
        'transmissivity, m² per unit of time',
        transmissivity,
        '',
        transmissivity * (standardErrors[0] as number),
      ),
      estimated('storativity', storativity, '', storativity * (standardErrors[1] as number)),
      given('root mean square', rootMeanSquareMetres, 'm'),
    ],
    remarks: [layerRemark, 'Standard errors hold for residuals that do not depend on each other.'],
    transmissivity,
    storativity,
    relativeStandardErrors: {
      transmissivity: standardErrors[0] as number,
      storativity: standardErrors[1] as number,
    },
    rootMeanSquareMetres,
    readingsBeyondLine: 0,
  })
}

/** The same by a straight line of drawdown against the logarithm of time (Cooper and Jacob 1946): give late readings only. */
export function fitStraightLine({
  ratePerTime,
  radiusMetres,
  readings,
}: PumpingTest): Outcome<PumpingTestResult> {
  if (!(ratePerTime > 0) || !(radiusMetres > 0))
    return reject({
      code: 'pumping-test-unfit',
      message: 'A pumping test needs a rate and a radius above 0. State both.',
    })
  const sorted = sortOut(readings, (reading) => {
    if (!Number.isFinite(reading.drawdownMetres)) return 'It has no value.'
    return reading.time > 0 ? null : 'It is from before pumping began, or of that instant.'
  })
  const { used } = sorted
  const fit = fitLine(
    used.map((reading) => Math.log(reading.time)),
    used.map((reading) => reading.drawdownMetres),
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
  const late = used.filter(
    (reading) => wellArgument({ transmissivity, storativity }, radiusMetres, reading.time) <= 0.01,
  )
  const rootMeanSquareMetres = residualStandardDeviation * Math.sqrt((count - 2) / count)
  const early = count - late.length
  return accept({
    ...sorted,
    parameters: [
      given('pumping rate, m³ per unit of time', ratePerTime, ''),
      given('distance of the observation well', radiusMetres, 'm'),
    ],
    found: [
      given('transmissivity, m² per unit of time', transmissivity, ''),
      given('storativity', storativity, ''),
      given('root mean square', rootMeanSquareMetres, 'm'),
    ],
    remarks: [
      layerRemark,
      'Which readings are taken moves the result by far more than their scatter: give late ones only.',
      ...(early > 0
        ? [`${early} readings are so early (u above 0.01) that the straight line does not hold for them.`]
        : []),
    ],
    ratePerTime,
    radiusMetres,
    method: `Straight line of drawdown against the logarithm of time through ${count} readings, ${early} of them too early for it (Cooper and Jacob 1946).`,
    transmissivity,
    storativity,
    relativeStandardErrors: null,
    rootMeanSquareMetres,
    readingsBeyondLine: early,
  })
}

const layerRemark =
  'The layer is taken as confined, even and without end: a boundary, leakage or a free water table bends the curve and is then told as another transmissivity.'
