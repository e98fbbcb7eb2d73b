import type { SettledPoint } from './distortion.ts'
import { deflectionWeights, weightedStandardError } from './distortion-weights.ts'

/** A part of a façade between two of its points, and the point of it that lies farthest off the straight line between them. */
export interface FacadePart {
  readonly mode: 'sagging' | 'hogging'
  /** Places in the line, by ascending chainage. */
  readonly from: number
  readonly to: number
  readonly farthest: number
  readonly lengthMetres: number
  /** Of that point from the straight line, mm, downwards positive: sagging. */
  readonly deflectionMm: number
  /** |deflection| over the length of the part, mm/m. */
  readonly deflectionRatioMmPerM: number
  /** Null where the error of a settlement behind it is not known. */
  readonly standardErrorMmPerM: number | null
  /** Above twice its standard error; null where that is not known. */
  readonly toldFromNone: boolean | null
}

/**
 * The parts of a façade that sag most and hog most for their length: over the whole length one bend hides in another. Every
 * pair of points with one between counts as ends; a part that is told from none goes before one that is not. Points ascend
 * in chainage. Null where nothing bends that way.
 */
export function mostBentParts(
  points: readonly (SettledPoint & { readonly standardUncertaintyMm: number | null })[],
): { readonly sagging: FacadePart | null; readonly hogging: FacadePart | null } {
  const parts = points.flatMap((_, from) =>
    points.slice(from + 2).flatMap((_, after) => partsBetween(points, from, from + 2 + after)),
  )
  return { sagging: mostBent(parts, 'sagging'), hogging: mostBent(parts, 'hogging') }
}

function partsBetween(
  points: readonly (SettledPoint & { readonly standardUncertaintyMm: number | null })[],
  from: number,
  to: number,
): readonly FacadePart[] {
  const chainages = points.map(({ chainageMetres }) => chainageMetres)
  const errors = points.map(({ standardUncertaintyMm }) => standardUncertaintyMm)
  const lengthMetres = (chainages[to] ?? 0) - (chainages[from] ?? 0)
  return points.slice(from + 1, to).flatMap((_, between) => {
    const farthest = from + 1 + between
    const weights = deflectionWeights(chainages, farthest, from, to)
    const deflectionMm = weights.reduce(
      (sum, weight, at) => sum + weight * (points[at]?.settlementMm ?? 0),
      0,
    )
    if (deflectionMm === 0) return []
    const error = weightedStandardError(weights, errors)
    return [
      {
        mode: deflectionMm > 0 ? ('sagging' as const) : ('hogging' as const),
        from,
        to,
        farthest,
        lengthMetres,
        deflectionMm,
        deflectionRatioMmPerM: Math.abs(deflectionMm) / lengthMetres,
        standardErrorMmPerM: error === null ? null : error / lengthMetres,
        toldFromNone: error === null ? null : Math.abs(deflectionMm) > 2 * error,
      },
    ]
  })
}

function mostBent(parts: readonly FacadePart[], mode: FacadePart['mode']): FacadePart | null {
  const own = parts.filter((part) => part.mode === mode)
  const told = own.filter(({ toldFromNone }) => toldFromNone !== false)
  return (told.length > 0 ? told : own).reduce<FacadePart | null>(
    (most, one) => (most === null || one.deflectionRatioMmPerM > most.deflectionRatioMmPerM ? one : most),
    null,
  )
}
