import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitCurve } from '../../statistics/curve-fit.ts'

/** A settlement point across a tunnel; offset from the line of the tunnel, right positive. */
export interface TroughPoint {
  readonly id: string
  readonly offsetMetres: number
  /** Positive downwards; null: no value known. */
  readonly settlementMm: number | null
  readonly late: boolean
}

export interface Estimate {
  readonly value: number
  readonly standardError: number
}

export interface FittedTrough {
  /** Whole sentence. */
  readonly method: string
  readonly parameters: { readonly centreHeldAtMetres: number | null; readonly faceDiameterMetres: number }
  readonly pointsUsed: readonly string[]
  readonly pointsLeftOut: readonly { readonly id: string; readonly reason: string }[]
  readonly greatestSettlementMm: Estimate
  /** i, from the centre to the steepest place. */
  readonly widthMetres: Estimate
  /** Of the middle of the trough from the line of the tunnel; standard error 0 where it was held. */
  readonly centreOffsetMetres: Estimate
  readonly volumeM3PerMetre: Estimate
  /** Share of the face area, 0.01 for 1 %. */
  readonly volumeLoss: Estimate
  /** Measured less fitted, in the order of `pointsUsed`. */
  readonly residualsMm: readonly number[]
  readonly residualSumOfSquares: number
  readonly residualStandardDeviationMm: number
  /** What a reader must know before trusting the volume; null: nothing. */
  readonly caution: string | null
}

export interface TroughFitOptions {
  readonly faceDiameterMetres: number
  /** Where given, the middle is not fitted but held there. */
  readonly centreHeldAtMetres?: number
}

/**
 * Gaussian trough (Peck 1969) through settlements measured across a tunnel, by least squares with standard errors
 * for independent residuals. Refused with too few points, with points on one flank only (the middle is then not
 * seen), and where the settlement is not told from none.
 */
export function fitTrough(points: readonly TroughPoint[], options: TroughFitOptions): Outcome<FittedTrough> {
  const { faceDiameterMetres, centreHeldAtMetres: held } = options
  const judged = points.map((point) => ({ point, reason: reasonToLeaveOut(point) }))
  const used = judged.flatMap(({ point, reason }) => (reason === null ? [point] : []))
  const pointsLeftOut = judged.flatMap(({ point, reason }) =>
    reason === null ? [] : [{ id: point.id, reason }],
  )
  const needed = held === undefined ? 5 : 4
  if (!(faceDiameterMetres > 0))
    return refuse('diameter-expected', 'The diameter of the tunnel is not above 0; state it in metres.')
  if (new Set(used.map(({ offsetMetres }) => offsetMetres)).size < needed)
    return refuse(
      'trough-points-too-few',
      `A trough needs points with a current value at ${needed} offsets at least; there are ${used.length}. Add points across the tunnel.`,
    )
  const y = used.map(({ offsetMetres }) => offsetMetres)
  const s = used.map(({ settlementMm }) => settlementMm as number)
  const most = s.indexOf(Math.max(...s))
  const startWidth = Math.max((Math.max(...y) - Math.min(...y)) / 6, 1e-3)
  const start = [Math.max(...s), startWidth, y[most] as number]
  const fit = fitCurve(
    (at, [greatest, width, centre]) =>
      (greatest as number) * Math.exp(-0.5 * ((at - (held ?? (centre as number))) / (width as number)) ** 2),
    y,
    s,
    held === undefined ? start : start.slice(0, 2),
  )
  if (!fit.ok) return fit
  const { parameters, standardErrors, covariance } = fit.value
  const [greatest, signed] = parameters as [number, number]
  const width = Math.abs(signed)
  const centre = held ?? (parameters[2] as number)
  if (!(greatest > 2 * (standardErrors[0] as number)))
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
  const volume = (Math.sqrt(2 * Math.PI) * width * greatest) / 1000
  const relative = Math.sqrt(
    ((covariance[0] as number[])[0] as number) / greatest ** 2 +
      ((covariance[1] as number[])[1] as number) / width ** 2 +
      (2 * ((covariance[0] as number[])[1] as number)) / (greatest * signed),
  )
  const face = (Math.PI * faceDiameterMetres ** 2) / 4
  const reach = Math.min(centre - Math.min(...y), Math.max(...y) - centre)
  return accept({
    method: `Gaussian trough (Peck 1969) fitted by least squares to ${used.length} points${held === undefined ? '' : ', its middle held'}; standard errors hold for independent residuals.`,
    parameters: { centreHeldAtMetres: held ?? null, faceDiameterMetres },
    pointsUsed: used.map(({ id }) => id),
    pointsLeftOut,
    greatestSettlementMm: { value: greatest, standardError: standardErrors[0] as number },
    widthMetres: { value: width, standardError: standardErrors[1] as number },
    centreOffsetMetres: { value: centre, standardError: standardErrors[2] ?? 0 },
    volumeM3PerMetre: { value: volume, standardError: volume * relative },
    volumeLoss: { value: volume / face, standardError: (volume / face) * relative },
    residualsMm: fit.value.residuals,
    residualSumOfSquares: fit.value.residualSumOfSquares,
    residualStandardDeviationMm: fit.value.residualStandardDeviation,
    caution:
      reach < 2.5 * width
        ? `The points reach ${(reach / width).toFixed(1)} i from the middle on the shorter side; the volume beyond is the curve's, not measured.`
        : null,
  })
}

function reasonToLeaveOut({ offsetMetres, settlementMm, late }: TroughPoint): string | null {
  if (!Number.isFinite(offsetMetres)) return 'Its offset is not known.'
  if (settlementMm === null || !Number.isFinite(settlementMm)) return 'It has no value.'
  return late ? 'Its last reading is late: it has no current value.' : null
}

const refuse = (code: string, message: string) => reject({ code, message })
