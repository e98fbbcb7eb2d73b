import { accept, type Outcome, reject } from '../outcome.ts'

/** Settlement, downwards, of a point along a line through a building. */
export interface SettledPoint {
  readonly chainageMetres: number
  readonly settlementMm: number
}

/** Three different quantities, of which none stands for another. */
export interface Distortion {
  /** Rigid tilt from the first to the last point, mm/m. */
  readonly tiltMmPerM: number
  /** Slope of each bay less the rigid tilt, mm/m (Burland and Wroth 1974). */
  readonly angularDistortionMmPerM: readonly number[]
  /** Distance of each point from the straight line between the first and last, mm, downwards positive. */
  readonly deflectionsMm: readonly number[]
  /** Greatest distance of a point from the straight line between the first and last, mm, downwards positive (sagging). */
  readonly greatestDeflectionMm: number
  /** |greatest deflection| over the length, without unit. */
  readonly deflectionRatio: number
}

/** Distortion along a line of settled points; refused with fewer than three, or two of them at one chainage. */
export function distortionOf(points: readonly SettledPoint[]): Outcome<Distortion> {
  const along = points.toSorted((one, other) => one.chainageMetres - other.chainageMetres)
  const [first, last] = [along[0], along.at(-1)]
  const bays = along.slice(1).map((right, index) => {
    const left = along[index] as SettledPoint
    const lengthMetres = right.chainageMetres - left.chainageMetres
    return { lengthMetres, slope: (right.settlementMm - left.settlementMm) / lengthMetres }
  })
  if (!first || !last || along.length < 3 || bays.some(({ lengthMetres }) => !(lengthMetres > 0)))
    return reject({
      code: 'distortion-undetermined',
      value: String(points.length),
      expected: 'three points or more at different chainages',
      message:
        'Distortion needs three points or more at different places of one line. Add points or take repeats away.',
    })
  const length = last.chainageMetres - first.chainageMetres
  const tilt = (last.settlementMm - first.settlementMm) / length
  const deflections = along.map(
    ({ chainageMetres, settlementMm }) =>
      settlementMm - first.settlementMm - tilt * (chainageMetres - first.chainageMetres),
  )
  const greatest = deflections.reduce((most, one) => (Math.abs(one) > Math.abs(most) ? one : most), 0)
  return accept({
    tiltMmPerM: tilt,
    angularDistortionMmPerM: bays.map(({ slope }) => slope - tilt),
    deflectionsMm: deflections,
    greatestDeflectionMm: greatest,
    deflectionRatio: Math.abs(greatest) / 1000 / length,
  })
}
