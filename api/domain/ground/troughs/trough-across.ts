import type { Station } from '../../geometry/alignment.ts'
import type { SitePoint } from '../../geometry/site-grid.ts'
import { accept, type Outcome, reject } from '../../outcome.ts'
import { gaussianTrough, settlementAt, type Trough, type TunnelDrive, troughBelowGround } from '../trough.ts'
import { type FittedTrough, fitTrough } from './fit-trough.ts'
import type { TroughPoint } from './trough-point.ts'

/** A settlement point of the site at an instant. */
export interface SettledPlace extends Omit<TroughPoint, 'offsetMetres'> {
  readonly eastingMetres: number
  readonly northingMetres: number
  /** Below ground; 0 at its surface. */
  readonly depthMetres: number
}

export interface TroughAcrossOptions {
  /** Of the section across the alignment, and how far from it along the alignment a point may stand. */
  readonly chainageMetres: number
  readonly withinMetres: number
  /** Points this deep, half a metre more or less, belong to the trough. */
  readonly pointDepthMetres: number
  /** What was expected; its diameter and depth are those of the fit. */
  readonly drive: TunnelDrive
  readonly centreHeldAtMetres?: number
}

export interface TroughAcross {
  readonly fitted: FittedTrough
  /** By the stated drive, at the depth of the points. */
  readonly predicted: Trough
  /** Measured less predicted, mm, in the order of `fitted.used`. */
  readonly overPredictionMm: readonly number[]
}

/**
 * Trough across an alignment at a chainage, from places on the site grid: measured, fitted and predicted. Places beyond the
 * ends of the alignment, outside the strip or at another depth belong to another section; they are counted in a remark.
 */
export function troughAcross(
  places: readonly SettledPlace[],
  stationOf: (point: SitePoint) => Station | null,
  options: TroughAcrossOptions,
): Outcome<TroughAcross> {
  const { chainageMetres, withinMetres, pointDepthMetres, drive, centreHeldAtMetres } = options
  const predicted = pointDepthMetres > 0 ? troughBelowGround(drive, pointDepthMetres) : gaussianTrough(drive)
  if (predicted === null)
    return reject({
      code: 'points-below-axis',
      message: 'The axis of the tunnel does not lie below the points, so no trough forms at them.',
    })
  const points = places.flatMap((place): TroughPoint[] => {
    const station = stationOf([place.eastingMetres, place.northingMetres])
    const belongs =
      station !== null &&
      station.beyond === null &&
      Math.abs(station.chainageMetres - chainageMetres) <= withinMetres &&
      Math.abs(place.depthMetres - pointDepthMetres) <= 0.5
    return belongs ? [{ ...place, offsetMetres: station.offsetMetres }] : []
  })
  const found = fitTrough(points, {
    faceDiameterMetres: drive.diameterMetres,
    axisDepthMetres: drive.axisDepthMetres,
    pointDepthMetres,
    ...(centreHeldAtMetres === undefined ? {} : { centreHeldAtMetres }),
  })
  if (!found.ok) return found
  const elsewhere = places.length - points.length
  return accept({
    fitted: {
      ...found.value,
      remarks: [
        ...found.value.remarks,
        ...(elsewhere > 0
          ? [
              `${elsewhere} other points stand more than ${withinMetres} m from chainage ${chainageMetres} m, beyond the alignment or at another depth: they are of other sections.`,
            ]
          : []),
      ],
    },
    predicted,
    overPredictionMm: found.value.used.map(
      ({ settlementMm, offsetMetres }) => settlementMm - settlementAt(predicted, offsetMetres),
    ),
  })
}
