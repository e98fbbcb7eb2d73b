import type { SitePoint } from '../geometry/site-grid.ts'
import { accept, type Outcome } from '../outcome.ts'
import type { GroundPoint, LeftOutPoint } from './kriging/ground-point.ts'
import { krigedSurfaceSteps } from './kriging/kriged-surface.ts'
import { shapesFor } from './surface-by-kriging.ts'

/** A reading against what a surface through all others says at its place. */
export interface PointResidual {
  /** Ids of the points at the place. */
  readonly ids: readonly string[]
  readonly observed: number
  readonly estimate: number
  /** Observed less estimate, in the unit of the surface. */
  readonly residual: number
  /** Of the residual: the ground's between the points and the reading's own together. */
  readonly standardError: number
  /** Residual over its standard error. */
  readonly standardised: number
}

export interface PointResiduals {
  readonly unit: string
  /** Farthest off first. */
  readonly points: readonly PointResidual[]
  readonly pointsLeftOut: readonly LeftOutPoint[]
  /** How the surface was made, how well its errors hold, what must be known: whole sentences. */
  readonly sentences: readonly string[]
}

export interface ResidualRequest {
  readonly points: readonly GroundPoint[]
  readonly unit: string
  readonly barriers: readonly (readonly SitePoint[])[]
}

/** Nodes of a surface that nobody looks at: the least that it can be worked out on. */
const nodes = 4

/**
 * Every point left out in turn of the kriged surface that the plan draws through them (Dubrule 1983, from the one inverse). The standard
 * error holds what the ground may do between the others and the point's own error (its nugget). Nothing is taken across a barrier. Refused as kriging is:
 * fewer than three places, places on one line.
 */
export function* pointResidualSteps({
  points,
  unit,
  barriers,
}: ResidualRequest): Generator<number, Outcome<PointResiduals>> {
  const made = yield* krigedSurfaceSteps(points, {
    unit,
    drift: 'ordinary',
    variogram: { shapes: shapesFor(points), anisotropy: 'fitted', groundNugget: 'none' },
    barriers,
    grid: nodes,
    silentRadiusMetres: 0,
    greatestDeviation: null,
  })
  if (!made.ok) return made
  const { check, method, notes, pointsLeftOut } = made.value
  return accept({
    unit,
    points: (check?.points ?? []).map(({ ids, observed, estimate, standardised }) => {
      const residual = observed - estimate
      return {
        ids,
        observed,
        estimate,
        residual,
        standardised,
        standardError: standardised === 0 ? 0 : residual / standardised,
      }
    }),
    pointsLeftOut,
    sentences: [
      method,
      ...(check === null
        ? ['All points have one value: nothing can be told by leaving one out.']
        : [check.sentence]),
      // Of a surface that is not shown it means nothing that no node of it is.
      ...notes.filter((note) => !note.startsWith('No node of the grid')),
    ],
  })
}
