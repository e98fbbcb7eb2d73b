import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitCurve } from '../../statistics/curve-fit.ts'
import { normalTail } from '../../statistics/normal-tail.ts'
import { type Analysis, estimated, given, reasonWithoutValue, sortOut } from '../analysis.ts'
import type { Estimate } from './fit-trough.ts'

/** Settlement of a point on the line of a tunnel with the face at a distance; the same point many times, or many points. */
export interface AdvanceReading {
  readonly id: string
  /** Of the point from the face: positive ahead, negative where the face has passed. Null: the face's place is not known. */
  readonly aheadOfFaceMetres: number | null
  /** Positive downwards; null: no value known. */
  readonly settlementMm: number | null
  readonly late: boolean
}

export type KnownAdvance = AdvanceReading & {
  readonly aheadOfFaceMetres: number
  readonly settlementMm: number
}

export interface LongitudinalTrough extends Analysis<AdvanceReading, KnownAdvance> {
  readonly finalSettlementMm: Estimate
  readonly widthMetres: Estimate
  /** How far behind the face half of the settlement has come. */
  readonly lagMetres: Estimate
  /** Share of the final settlement when the face passes, 0 to 1. */
  readonly shareAtFace: number
  readonly residualsMm: readonly number[]
  readonly residualStandardDeviationMm: number
}

/**
 * S_final Φ(−(x + lag)/i) through settlements by the distance x ahead of the face (Attewell and Woodman 1982, with a lag
 * behind the face for shielded drives). Refused with fewer than five distances, where the points stand on one side of
 * the face, and where the settlement is not told from none.
 */
export function fitLongitudinalTrough(readings: readonly AdvanceReading[]): Outcome<LongitudinalTrough> {
  const sorted = sortOut<AdvanceReading, KnownAdvance>(readings, reasonToLeaveOut)
  const { used } = sorted
  const x = used.map(({ aheadOfFaceMetres }) => aheadOfFaceMetres)
  const s = used.map(({ settlementMm }) => settlementMm)
  if (new Set(x).size < 5)
    return refuse(
      'advance-too-short',
      `The trough along a drive needs settlements at five distances from the face at least; there are ${new Set(x).size}.`,
    )
  const most = Math.max(...s)
  const start = [most, (Math.max(...x) - Math.min(...x)) / 6, 0]
  const fit = fitCurve(
    (at, [final, width, lag]) => curve(at, final as number, width as number, lag as number),
    x,
    s,
    start,
  )
  if (!fit.ok) return fit
  const [final, signed, lag] = fit.value.parameters as [number, number, number]
  const [finalError, widthError, lagError] = fit.value.standardErrors as [number, number, number]
  const width = signed
  if (!(final > 2 * finalError) || !(width > 0))
    return refuse(
      'no-trough',
      'The settlement does not grow as the face comes by more than its standard error tells: no trough along the drive is shown.',
    )
  if (Math.min(...x) > -lag || Math.max(...x) < -lag)
    return refuse(
      'face-on-one-side',
      'Readings lie on one side of the middle of the curve, so final settlement and width are guesses. Wait until the face has gone by.',
    )
  const passed = Math.min(...x) <= -lag - 2 * width
  const share = normalTail(lag / width)
  return accept({
    ...sorted,
    method: `S Φ(−(x + lag)/i) by least squares through ${used.length} settlements by their distance from the face (Attewell and Woodman 1982, with a lag behind the face).`,
    parameters: [given('distances from the face', new Set(x).size, '')],
    found: [
      estimated('final settlement', final, 'mm', finalError),
      estimated('width i along the drive', width, 'm', widthError),
      estimated('lag behind the face', lag, 'm', lagError),
      estimated('share when the face passes', 100 * share, '%', null),
    ],
    remarks: [
      'Half at the face is an assumption for open faces in clay, closed faces show 25 to 40 % (Mair and Taylor 1997, from memory); here the share is fitted. Consolidation after the face is not in the curve.',
      ...(passed
        ? []
        : ["The face has not gone 2 i past the points: the final settlement is the curve's, not measured."]),
    ],
    finalSettlementMm: { value: final, standardError: finalError },
    widthMetres: { value: width, standardError: widthError },
    lagMetres: { value: lag, standardError: lagError },
    shareAtFace: share,
    residualsMm: fit.value.residuals,
    residualStandardDeviationMm: fit.value.residualStandardDeviation,
  })
}

/** Settlement, mm, by a fitted trough at a distance ahead of the face. */
export const longitudinalAt = (
  { finalSettlementMm, widthMetres, lagMetres }: LongitudinalTrough,
  aheadOfFaceMetres: number,
): number => curve(aheadOfFaceMetres, finalSettlementMm.value, widthMetres.value, lagMetres.value)

const curve = (ahead: number, final: number, width: number, lag: number) =>
  final * normalTail((ahead + lag) / width)

function reasonToLeaveOut({ aheadOfFaceMetres, settlementMm, late }: AdvanceReading): string | null {
  if (aheadOfFaceMetres === null || !Number.isFinite(aheadOfFaceMetres))
    return 'The place of the face is not known at its instant.'
  return reasonWithoutValue(settlementMm, late)
}

const refuse = (code: string, message: string) => reject({ code, message })
