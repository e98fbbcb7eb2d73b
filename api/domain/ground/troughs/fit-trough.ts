import { accept, type Outcome, reject } from '../../outcome.ts'
import { type CurveFit, fitCurve } from '../../statistics/curve-fit.ts'
import { type Analysis, sortOut } from '../analysis.ts'
import { settlementAt, type Trough } from '../trough.ts'
import { troughAccount } from './trough-account.ts'
import { type KnownTroughPoint, reasonToLeaveOut, type TroughPoint } from './trough-point.ts'
import { measuredVolumeM3PerMetre } from './trough-volume.ts'

export interface Estimate {
  readonly value: number
  readonly standardError: number
}

export interface FittedTrough extends Analysis<TroughPoint, KnownTroughPoint> {
  readonly trough: Trough
  readonly greatestSettlementMm: Estimate
  /** i, from the centre to the steepest place. */
  readonly widthMetres: Estimate
  /** Of the middle of the trough from the line of the tunnel; standard error 0 where it was held. */
  readonly centreOffsetMetres: Estimate
  readonly volumeM3PerMetre: Estimate
  /** Under straight lines between the points, m³ a metre. */
  readonly measuredVolumeM3PerMetre: number
  /** Share of the face area, 0.01 for 1 %. */
  readonly volumeLoss: Estimate
  /** K = i/(z₀ − z); null where the depth of the axis was not stated. */
  readonly widthParameter: Estimate | null
  /** Measured less fitted, in the order of `used`. */
  readonly residualsMm: readonly number[]
  readonly residualSumOfSquares: number
  readonly residualStandardDeviationMm: number
  /** Of greatest settlement, width and middle, in this order. */
  readonly covariance: readonly (readonly number[])[]
}

export interface TroughFitOptions {
  readonly faceDiameterMetres: number
  /** Of the axis below ground; with it, K is told. */
  readonly axisDepthMetres?: number
  /** Of the points below ground; 0 where not given. */
  readonly pointDepthMetres?: number
  /** Where given, the middle is not fitted but held there. */
  readonly centreHeldAtMetres?: number
}

/**
 * Gaussian trough (Peck 1969) through settlements measured across a tunnel, by least squares with standard errors
 * for independent residuals. Refused with too few points, with points on one flank only (the middle is then not
 * seen), and where the settlement is not told from none.
 */
export function fitTrough(points: readonly TroughPoint[], options: TroughFitOptions): Outcome<FittedTrough> {
  const { faceDiameterMetres, axisDepthMetres, pointDepthMetres = 0, centreHeldAtMetres: held } = options
  const sorted = sortOut<TroughPoint, KnownTroughPoint>(points, reasonToLeaveOut)
  const { used } = sorted
  const needed = held === undefined ? 5 : 4
  if (!(faceDiameterMetres > 0))
    return refuse('diameter-expected', 'The diameter of the tunnel is not above 0; state it in metres.')
  if (axisDepthMetres !== undefined && !(axisDepthMetres > pointDepthMetres))
    return refuse(
      'points-below-axis',
      'The axis of the tunnel does not lie below the points, so no trough forms at them.',
    )
  if (new Set(used.map(({ offsetMetres }) => offsetMetres)).size < needed)
    return refuse(
      'trough-points-too-few',
      `A trough needs points with a current value at ${needed} offsets at least; there are ${used.length}. Add points across the tunnel.`,
    )
  const y = used.map(({ offsetMetres }) => offsetMetres)
  const s = used.map(({ settlementMm }) => settlementMm)
  // Counted from where it settled most, so that the line may lie anywhere.
  const from = y[s.indexOf(Math.max(...s))] as number
  const measured = measuredVolumeM3PerMetre(used)
  // Of a Gaussian of that volume and depth: a guess from the reach of the points alone misses a narrow trough.
  const byVolume = (1000 * measured) / (Math.sqrt(2 * Math.PI) * Math.max(...s))
  const byReach = Math.max((Math.max(...y) - Math.min(...y)) / 6, 1e-3)
  const start = [Math.max(...s), byVolume > 0 && Number.isFinite(byVolume) ? byVolume : byReach, 0]
  const fit = fitCurve(
    (at, [greatest, width, centre]) =>
      (greatest as number) *
      Math.exp(
        -0.5 * ((at - (held === undefined ? (centre as number) : held - from)) / (width as number)) ** 2,
      ),
    y.map((offset) => offset - from),
    s,
    held === undefined ? start : start.slice(0, 2),
  )
  if (!fit.ok) return fit
  const [greatest, signed] = fit.value.parameters as [number, number]
  const centre = held ?? from + (fit.value.parameters[2] as number)
  if (!(greatest > 2 * (fit.value.standardErrors[0] as number)))
    return refuse(
      'no-trough',
      'The settlement found is not above twice its standard error: these points do not show a trough. Look at the points themselves.',
    )
  const flank = y.filter((offset) => offset < centre).length
  if (Math.min(flank, y.filter((offset) => offset > centre).length) < 2)
    return refuse(
      'trough-on-one-flank',
      'Fewer than two points lie on one side of the middle of the trough, so its middle and width are guesses. Add points on the other side.',
    )
  const numbers = numbersOf(fit.value, centre, Math.abs(signed), options)
  return accept({
    ...sorted,
    ...numbers,
    ...troughAccount(numbers, used, options, measured),
    measuredVolumeM3PerMetre: measured,
    residualsMm: fit.value.residuals,
    residualSumOfSquares: fit.value.residualSumOfSquares,
    residualStandardDeviationMm: fit.value.residualStandardDeviation,
  })
}

/** The fitted trough at an offset, mm, and the standard error of the curve there, not that of one more point. */
export function fittedAt(
  { trough, centreOffsetMetres, covariance }: FittedTrough,
  offsetMetres: number,
): Estimate {
  const away = offsetMetres - centreOffsetMetres.value
  const value = settlementAt(trough, away)
  const slopes = [
    value / trough.greatestSettlementMm,
    (value * away ** 2) / trough.widthMetres ** 3,
    (value * away) / trough.widthMetres ** 2,
  ].slice(0, covariance.length)
  const variance = slopes.reduce(
    (sum, one, row) =>
      sum +
      slopes.reduce(
        (part, other, at) => part + one * other * ((covariance[row] as number[])[at] as number),
        0,
      ),
    0,
  )
  return { value, standardError: Math.sqrt(Math.max(0, variance)) }
}

/** The fit's numbers. The width enters squared, so its sign is the fit's whim: taken positive, covariances with it. */
function numbersOf(fit: CurveFit, centre: number, widthMetres: number, options: TroughFitOptions) {
  const { faceDiameterMetres, axisDepthMetres, pointDepthMetres = 0 } = options
  const { parameters, standardErrors } = fit
  const [greatest, signed] = parameters as [number, number]
  const turned = (at: number) => (at === 1 && signed < 0 ? -1 : 1)
  const covariance = fit.covariance.map((row, a) => row.map((value, b) => value * turned(a) * turned(b)))
  const of = (a: number, b: number) => (covariance[a] as number[])[b] as number
  const relative = Math.sqrt(
    of(0, 0) / greatest ** 2 + of(1, 1) / widthMetres ** 2 + (2 * of(0, 1)) / (greatest * widthMetres),
  )
  const volume = (Math.sqrt(2 * Math.PI) * widthMetres * greatest) / 1000
  const face = (Math.PI * faceDiameterMetres ** 2) / 4
  const above = axisDepthMetres === undefined ? null : axisDepthMetres - pointDepthMetres
  const width = { value: widthMetres, standardError: standardErrors[1] as number }
  return {
    trough: { widthMetres, volumeM3PerMetre: volume, greatestSettlementMm: greatest },
    greatestSettlementMm: { value: greatest, standardError: standardErrors[0] as number },
    widthMetres: width,
    centreOffsetMetres: { value: centre, standardError: standardErrors[2] ?? 0 },
    volumeM3PerMetre: { value: volume, standardError: volume * relative },
    volumeLoss: { value: volume / face, standardError: (volume / face) * relative },
    widthParameter:
      above === null ? null : { value: width.value / above, standardError: width.standardError / above },
    covariance,
  }
}

const refuse = (code: string, message: string) => reject({ code, message })
