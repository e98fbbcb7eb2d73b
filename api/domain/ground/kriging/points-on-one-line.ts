import { type Outcome, reject } from '../../outcome.ts'
import { areaAndCentroid, convexHull } from '../convex-hull.ts'
import type { Places } from './places-of-points.ts'

/** Refused with the reason: fewer than three places, and places on one line. Null: they make a surface. */
export function refuseLayout({ places, extentMetres }: Places): Outcome<never> | null {
  const count = places.length
  if (count < 3)
    return reject({
      code: 'too-few-points',
      value: String(count),
      expected: 'at least 3 places',
      message:
        count === 1
          ? 'There is one place with a value: it tells nothing of the ground beside it. Read the point itself.'
          : 'There are two places with a value: they give a line between them, not a surface. Compare the two points.',
    })
  if (!isThin(convexHull(places.map(({ east, north }) => [east, north] as const)), extentMetres)) return null
  return reject({
    code: 'points-on-one-line',
    value: String(count),
    expected: 'points on both sides of a line',
    message: `All ${count} places lie on one line, so across it nothing is known and no surface is drawn. Draw them as a profile along that line, or add points beside it.`,
  })
}

/** Whether a hull is a line for all that can be told. */
export const isThin = (hull: readonly (readonly [number, number])[], extentMetres: number) =>
  hull.length < 3 || areaAndCentroid(hull).area <= 1e-6 * extentMetres ** 2
