import type { Station } from '../../geometry/alignment.ts'
import type { SitePoint } from '../../geometry/site-grid.ts'
import { accept, type Outcome, reject } from '../../outcome.ts'
import { type Analysis, given, sortOut } from '../analysis.ts'
import { gaussianTrough, settlementAt, type TunnelDrive } from '../trough.ts'
import type { SettledPlace } from './trough-across.ts'
import { reasonToLeaveOut } from './trough-point.ts'

/** A settlement point beside an alignment. */
export interface PlaceAlong extends SettledPlace {
  readonly chainageMetres: number
  /** Right of travel positive. */
  readonly offsetMetres: number
}

export type KnownPlaceAlong = PlaceAlong & { readonly settlementMm: number }

export interface SettlementAlong extends Analysis<PlaceAlong, KnownPlaceAlong> {
  /** By the stated drive at each point's own offset, once the face is far beyond; mm, in the order of `used`. */
  readonly predictedMm: readonly number[]
  /** Measured less predicted, mm, in the order of `used`. */
  readonly overPredictionMm: readonly number[]
}

/**
 * Settlements measured along an alignment beside those that the stated drive would leave at the same places, from the
 * start of the alignment onwards. Points at the surface no farther from the line than `withinMetres`. Refused where none
 * has a value.
 */
export function settlementAlong(
  places: readonly SettledPlace[],
  stationOf: (point: SitePoint) => Station | null,
  { drive, withinMetres }: { readonly drive: TunnelDrive; readonly withinMetres: number },
): Outcome<SettlementAlong> {
  const beside = places.flatMap((place): PlaceAlong[] => {
    const station = stationOf([place.eastingMetres, place.northingMetres])
    const belongs =
      station !== null &&
      station.beyond === null &&
      Math.abs(station.offsetMetres) <= withinMetres &&
      place.depthMetres <= 0.5
    return belongs
      ? [{ ...place, chainageMetres: station.chainageMetres, offsetMetres: station.offsetMetres }]
      : []
  })
  const sorted = sortOut<PlaceAlong, KnownPlaceAlong>(beside, reasonToLeaveOut)
  const used = sorted.used.toSorted((one, other) => one.chainageMetres - other.chainageMetres)
  if (used.length === 0)
    return reject({
      code: 'no-settlement-along',
      value: String(beside.length),
      message: `Of ${beside.length} points within ${withinMetres} m of the line none has a current value. Widen the offsets, or look at the points themselves.`,
    })
  const trough = gaussianTrough(drive)
  const predictedMm = used.map(({ offsetMetres }) => settlementAt(trough, offsetMetres))
  const overPredictionMm = used.map(({ settlementMm }, at) => settlementMm - (predictedMm[at] as number))
  const apart = used.filter(
    ({ standardUncertaintyMm }, at) =>
      standardUncertaintyMm !== null && Math.abs(overPredictionMm[at] as number) > 2 * standardUncertaintyMm,
  ).length
  const known = used.filter(({ standardUncertaintyMm }) => standardUncertaintyMm !== null).length
  return accept({
    used,
    leftOut: sorted.leftOut,
    method:
      'Settlement of each point beside that of a Gaussian trough (Peck 1969) of the stated volume loss and K at its own offset.',
    parameters: [
      given('volume loss', 100 * drive.volumeLoss, '%'),
      given('K', drive.widthParameter, ''),
      given('depth of the axis', drive.axisDepthMetres, 'm'),
      given('points within', withinMetres, 'm'),
    ],
    found: [
      given('greatest measured', Math.max(...used.map(({ settlementMm }) => settlementMm)), 'mm'),
      given(
        'mean of measured less predicted',
        overPredictionMm.reduce((sum, one) => sum + one, 0) / used.length,
        'mm',
      ),
      given('most above the prediction', Math.max(...overPredictionMm), 'mm'),
    ],
    remarks: [
      `${apart} of ${known} points with a known uncertainty lie more than twice it from what is predicted.`,
      'Predicted is what the drive leaves once its face is far beyond: at and ahead of the face less is to be expected. Other works that settle the ground, and what a bend of the trough does beyond the ends of the line, are not in it.',
    ],
    predictedMm,
    overPredictionMm,
  })
}
