import type { KrigingSystem } from './kriging-system.ts'
import { leaveOneOut } from './leave-one-out.ts'

/** A point that the others do not bear out, or do. */
export interface CheckedPoint {
  /** Ids of the points at the place. */
  readonly ids: readonly string[]
  readonly observed: number
  readonly estimate: number
  /** (observed − estimate) / its standard deviation. */
  readonly standardised: number
}

export interface SurfaceCheck {
  /** Farthest from what the others say first. */
  readonly points: readonly CheckedPoint[]
  /** Mean squared standardised error, near 1 where the stated deviations are right. */
  readonly meanSquaredRatio: number
  readonly sentence: string
}

/** Every place left out in turn, over all parts of the ground. */
export function checkSurface(
  parts: readonly { readonly system: KrigingSystem; readonly ids: readonly (readonly string[])[] }[],
): SurfaceCheck {
  const points = parts
    .flatMap(({ system, ids }) =>
      leaveOneOut(system).points.map(
        ({ index, estimate, standardised }): CheckedPoint => ({
          ids: ids[index] ?? [],
          observed: system.points[index]?.value ?? Number.NaN,
          estimate,
          standardised,
        }),
      ),
    )
    .toSorted((a, b) => Math.abs(b.standardised) - Math.abs(a.standardised))
  const meanSquaredRatio =
    points.reduce((sum, { standardised }) => sum + standardised ** 2, 0) / points.length
  const said =
    meanSquaredRatio > 1.5
      ? 'the readings scatter more than the stated deviations promise: take these as too small'
      : meanSquaredRatio < 0.67
        ? 'the readings scatter less than the stated deviations: take these as too large'
        : 'the readings scatter as the stated deviations say'
  const worst = points
    .filter(({ standardised }) => Math.abs(standardised) > 2)
    .slice(0, 3)
    .map(({ ids, standardised }) => `${ids.join(' and ')} by ${Math.abs(standardised).toFixed(1)}`)
  return {
    points,
    meanSquaredRatio,
    sentence: `Each place left out in turn: mean squared ratio ${meanSquaredRatio.toFixed(2)}, ${said}.${
      worst.length > 0 ? ` Off by more than two deviations: ${worst.join(', ')}.` : ''
    }`,
  }
}
